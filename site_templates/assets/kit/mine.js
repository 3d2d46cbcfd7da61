/* Whoever says who they are sees in the menu what is not for them; nobody is told that the rest is. */
const startMine = () => {
  const cells = all(".menu [data-refused]").map((one) => [one.parentElement, JSON.parse(one.dataset.refused)]);
  const names = [...new Set(cells.flatMap(([, refused]) => Object.keys(refused)))];
  const choice = make("select", {}, make("option", { value: "" }, WORDS.anybody), ...names.map((name) => make("option", {}, name)));
  document.querySelector(".menu").before(make("p", { className: "who-reads" }, make("label", {}, `${WORDS.whoAreYou} `, choice)));
  const line = (words, foods) => (foods.length ? [make("strong", { className: "not-mine" }, fill(words, { foods: foods.join("; ") }))] : []);
  const show = () => {
    for (const old of all(".not-mine")) old.remove();
    for (const [cell, refused] of cells) {
      const [never, unsure] = refused[choice.value] ?? [[], []];
      cell.append(...line(WORDS.notForYou, never), ...line(WORDS.readPacket, unsure));
    }
  };
  const saved = kept.get("me");
  choice.value = names.includes(saved) ? saved : "";
  choice.addEventListener("change", () => { kept.set("me", choice.value || null); show(); });
  show();
};
