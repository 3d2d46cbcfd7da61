/* The pocket page: timers beside their steps, and dim red colours for the tent. */
const startSteps = () => {
  for (const line of all("li[data-minutes]")) {
    const { minutes } = line.dataset;
    line.append(make("button", {
      type: "button",
      className: "timer",
      "data-minutes": minutes,
      "data-label": line.closest("section")?.querySelector("h3")?.textContent ?? "",
    }, WORDS.start(duration(Number(minutes)))));
  }
};
const startNight = () => {
  const heading = document.querySelector("body > header h1");
  if (!heading) return;
  const show = () => {
    const on = kept.get("night") === true;
    document.documentElement.classList.toggle("night", on);
    press(toggle, on);
  };
  const toggle = button(WORDS.night, () => { kept.set("night", kept.get("night") === true ? null : true); show(); });
  heading.after(make("div", { className: "kit-tools" }, toggle, ...printers()));
  show();
};
/* A booklet for the chest pocket, the pocket or the fridge; a viewer that cannot print offers none. */
const printers = () => (window.print ? ["A6", "A5", "A4"] : []).map((size) => button(fill(WORDS.print, { size }), () => {
  for (const other of ["A6", "A4"]) document.documentElement.classList.toggle(other.toLowerCase(), size === other);
  window.print();
}));
