/* An order of work told by the clock, where the trip or somebody has said when to eat. */
const startOrders = () => {
  for (const order of all(".order")) {
    const times = all(".before[data-before]", order);
    if (!times.length) continue;
    const table = times[0].closest("table");
    const head = table?.querySelector("th");
    const headWords = head?.textContent;
    const words = times.map((time) => time.textContent);
    const spans = times.map((time) => time.dataset.time ?? time.textContent);
    // Said once: a meal is eaten at the same time on all days, until one says another.
    const name = `eat ${order.dataset.meal}`;
    const planned = order.dataset.eat ?? "";
    const input = make("input", { type: "time", value: kept.get(name) || planned });
    const follow = () => {
      kept.set(name, input.value === planned ? null : input.value || null);
      times.forEach((time, i) => {
        time.replaceChildren(words[i]);
        if (!input.value) return;
        const at = minutesOf(input.value) - Number(time.dataset.before);
        const before = make("span", { className: "small" }, WORDS.before(spans[i], at < 0));
        time.replaceChildren(`${clockOf(at)} `, ...(Number(time.dataset.before) ? [before] : []));
      });
      if (head) head.textContent = input.value ? WORDS.at : headWords;
    };
    input.addEventListener("input", follow);
    const row = make("div", { className: "eat-at" }, make("label", { className: "kit-row" }, WORDS.eatAt, input));
    (table?.closest(".wide") ?? table ?? times[0].closest("ol")).before(row);
    follow();
  }
};
