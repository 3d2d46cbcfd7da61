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
/* Contents with the numbers of the sheets, where a browser prints such numbers: for a moment the
   sheets are laid out as columns, and counted. */
const numberSheets = () => {
  const print = [...document.styleSheets[0].cssRules].find((rule) => rule.media?.mediaText === "print");
  const rules = [...print.cssRules].map((rule) => rule.cssText).filter((rule) => !rule.startsWith("@page"));
  if (rules.length === print.cssRules.length || !/@bottom-center/.test(print.cssText)) return;
  const columns = new CSSStyleSheet();
  columns.replaceSync(`${rules.join("\n").replace(/break-before: page/g, "break-before: column")}
    body { width: var(--across); height: var(--sheet); margin: 0; columns: var(--across); column-gap: 0; column-fill: auto; }`);
  document.adoptedStyleSheets = [columns];
  const { left, width } = document.body.getBoundingClientRect();
  for (const link of all("nav a, .days > li > a")) {
    const begins = document.getElementById(link.getAttribute("href").slice(1)).getBoundingClientRect().left;
    link.dataset.sheet = Math.floor((begins - left + 1) / width) + 1;
  }
  document.adoptedStyleSheets = [];
};
addEventListener("beforeprint", numberSheets);

/* A booklet for the chest pocket, the pocket or the fridge; a viewer that cannot print offers none. */
const printers = () => (window.print ? ["A6", "A5", "A4"] : []).map((size) => button(fill(WORDS.print, { size }), () => {
  for (const other of ["A6", "A4"]) document.documentElement.classList.toggle(other.toLowerCase(), size === other);
  window.print();
}));
