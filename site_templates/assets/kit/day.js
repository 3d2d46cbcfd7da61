/* What the phone's clock tells: today on the first page, and clock times for an order of work. */
const isoDay = (date) => `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
const MEALS = [["breakfast", 10], ["lunch", 14], ["dinner", 24]]; // until this hour
const TOMORROW_FROM = 21;

const startNow = () => {
  const days = all(".day[data-date]");
  const heading = document.querySelector("article h1, body > header h1");
  if (!days.length || !heading) return;
  const box = make("section", { className: "next now", hidden: true, "aria-label": WORDS.today });
  (heading.nextElementSibling?.matches("p") ? heading.nextElementSibling : heading).after(box);
  let shown = "";
  const look = () => {
    const now = new Date();
    const at = days.findIndex((day) => day.dataset.date === isoDay(now));
    const key = `${at} ${now.getHours()}`;
    if (key === shown) return;
    shown = key;
    days.forEach((day, i) => day.classList.toggle("today", i === at));
    box.hidden = at < 0;
    box.replaceChildren(...(at < 0 ? [] : todayLines(days[at], days[at + 1], now.getHours())));
  };
  look();
  setInterval(look, 30000);
  document.addEventListener("visibilitychange", look);
};

/* The meal of this hour, or the next that there is; dinner; late in the evening tomorrow's breakfast. */
const todayLines = (day, tomorrow, hour) => {
  const link = day.querySelector("a");
  const lines = [make("h2", {}, `${WORDS.today}: `, make("a", { href: link.href }, link.textContent))];
  const links = (which, from) => all(`.meal[data-meal="${which}"] a`, from).flatMap((one, i) =>
    [...(i ? [", "] : []), make("a", { href: one.href }, one.textContent)]);
  const say = (words, which, from, className = "") => {
    const found = from ? links(which, from) : [];
    // Where the link says no more than which meal it is, once is enough.
    const said = found.length === 1 && found[0].textContent === words ? [] : [`${words}: `];
    if (found.length) lines.push(make("p", { className }, ...said, ...found));
    return found.length > 0;
  };
  const left = MEALS.filter(([, until]) => hour < until).map(([meal]) => meal);
  const meal = left.find((which) => say(WORDS.meals[which], which, day, "meal-now"));
  if (meal !== "dinner") say(WORDS.tonight, "dinner", day);
  if (hour >= TOMORROW_FROM) say(WORDS.tomorrow, "breakfast", tomorrow);
  return lines;
};

const startOrders = () => {
  for (const order of all(".order")) {
    const times = all(".before[data-before]", order);
    if (!times.length) continue;
    const table = times[0].closest("table");
    const head = table?.querySelector("th");
    const headWords = head?.textContent;
    const words = times.map((time) => time.textContent);
    const spans = times.map((time) => time.dataset.time ?? time.textContent);
    const name = `eat ${pageName} ${order.dataset.meal} ${all(".order").indexOf(order)}`;
    const input = make("input", { type: "time", value: kept.get(name) || "" });
    const follow = () => {
      kept.set(name, input.value || null);
      const [h, m] = input.value.split(":").map(Number);
      times.forEach((time, i) => {
        time.replaceChildren(words[i]);
        if (!input.value) return;
        const at = h * 60 + m - Number(time.dataset.before);
        const minutes = ((at % 1440) + 1440) % 1440;
        const clock = `${two(Math.floor(minutes / 60))}:${two(minutes % 60)} `;
        const before = make("span", { className: "small" }, WORDS.before(spans[i], at < 0));
        time.replaceChildren(clock, ...(Number(time.dataset.before) ? [before] : []));
      });
      if (head) head.textContent = input.value ? WORDS.at : headWords;
    };
    input.addEventListener("input", follow);
    const row = make("div", { className: "eat-at" }, make("label", { className: "kit-row" }, WORDS.eatAt, input));
    (table?.closest(".wide") ?? table ?? times[0].closest("ol")).before(row);
    follow();
  }
};
