/* What is next, on the first page: by the phone's clock, by when one said to eat, and by what is
   ticked off. */
const isoDay = (date) => `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
const MEALS = [["breakfast", 10], ["lunch", 14], ["dinner", 24]]; // until this hour, where nobody said when
const TOMORROW_FROM = 21;
const AT_TABLE_MIN = 60;
const DAY_MS = 86400000;

const startNow = () => {
  const days = all("[data-date]").map((one) => ({ date: one.dataset.date, row: one.closest("tr, li") }));
  const heading = document.querySelector("article h1, body > header h1");
  if (!days.length || !heading) return;
  const box = make("section", { className: "next now", hidden: true, "aria-label": WORDS.today });
  (heading.nextElementSibling?.matches("p") ? heading.nextElementSibling : heading).after(box);
  const before = document.getElementById("next");
  if (before) tellBefore(before, days[0].date);
  let shown = "";
  const look = () => {
    const now = new Date();
    const today = isoDay(now);
    const at = days.findIndex(({ date }) => date === today);
    const over = today > days.at(-1).date;
    const lines = over ? [make("p", {}, WORDS.tripOver)] : at < 0 ? [] : todayLines(days[at].row, days[at + 1]?.row, now);
    const key = lines.map((line) => line.outerHTML).join("");
    if (key === shown) return;
    shown = key;
    days.forEach(({ row }, i) => row.classList.toggle("today", i === at));
    box.hidden = !lines.length;
    box.replaceChildren(...lines);
  };
  look();
  setInterval(look, 30000);
  for (const kind of ["visibilitychange", "pageshow", "storage"]) addEventListener(kind, look);
};

/* Before the start: how long it still is, and what of the lists is ticked off. */
const tellBefore = (heading, first) => {
  const left = Math.round((new Date(first) - new Date(isoDay(new Date()))) / DAY_MS);
  if (left > 0) heading.append(" ", make("span", { className: "small" }, counted(WORDS.inDays, left)));
  for (const link of all(".next:not(.now) a")) {
    const ticked = kept.get(`ticks ${link.getAttribute("href")}`)?.length;
    if (ticked) link.after(` ${counted(WORDS.ticked, ticked)}`);
  }
};

/* The next meal that is neither over nor cooked whole; late in the evening tomorrow's breakfast. */
const todayLines = (day, tomorrow, now) => {
  const link = day.querySelector("a");
  const lines = [make("h2", {}, `${WORDS.today}: `, make("a", { href: link.href }, link.textContent))];
  const minute = now.getHours() * 60 + now.getMinutes();
  const mealOf = (which, from) => {
    const mark = from?.querySelector(`[data-meal="${which}"]`);
    const links = mark ? all("a", mark.matches(":has(a)") ? mark : mark.parentElement) : [];
    return links.length ? { mark, links, data: mark.dataset } : null;
  };
  const isOver = ([which, until]) => {
    const meal = mealOf(which, day);
    const eat = eatAt(which, meal);
    const done = meal?.data.steps && stepsDone(meal) >= meal.data.steps;
    return !meal || done || (eat ? minute > minutesOf(eat) + AT_TABLE_MIN : now.getHours() >= until);
  };
  const say = (words, meal, className = "") => {
    if (!meal) return;
    const links = meal.links.flatMap((one, i) => [...(i ? [", "] : []), make("a", { href: one.href }, one.textContent)]);
    // Where the link says no more than which meal it is, once is enough.
    const said = meal.links.length === 1 && meal.links[0].textContent === words ? [] : [`${words}: `];
    lines.push(make("p", { className }, ...said, ...links));
  };
  const next = MEALS.find((each) => !isOver(each))?.[0];
  if (next) {
    say(WORDS.meals[next], mealOf(next, day), "meal-now");
    lines.push(...cooking(next, mealOf(next, day)));
  }
  if (next && next !== "dinner") say(WORDS.tonight, mealOf("dinner", day));
  if (!next || now.getHours() >= TOMORROW_FROM) say(WORDS.tomorrow, mealOf("breakfast", tomorrow));
  // The last day's evening: a card that says nothing would leave one waiting for it.
  if (!lines[1]) lines.push(make("p", {}, WORDS.noMeal));
  return lines;
};

/* When one eats: as said on this phone, or else as the trip tells. */
const eatAt = (which, meal) => kept.get(`eat ${which}`) || meal?.data.eat;

const stepsDone = ({ links }) => kept.get(`ticks ${links[0].getAttribute("href")}`)?.length ?? 0;

/* What is cooked step by step: when to begin and with what, and one large touch into it. */
const cooking = (which, meal) => {
  const { start, first, steps } = meal.data;
  if (!start) return [];
  const eat = eatAt(which, meal);
  const done = stepsDone(meal);
  const when = eat ? clockOf(minutesOf(eat) - Number(start)) : fill(WORDS.beforeEating, { n: start });
  const act = done ? fill(WORDS.stepsDone, { n: done, all: steps }) : `${when}: ${first}`;
  return [make("p", {}, act), make("a", { className: "kit-go", href: meal.links[0].href }, done ? WORDS.goOn : WORDS.cook[which])];
};
