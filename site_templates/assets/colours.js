/* The switch of colours, the same on all pages: it stands in the form before this script. */
var __kit_palette = (told) => {
  const grow = ([tag, attributes, ...inner]) => {
    const element = tag === "svg" ? document.createElementNS("http://www.w3.org/2000/svg", tag) : document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    element.append(...inner.map(grow));
    return element;
  };
  document.currentScript.previousElementSibling.append(...told.map(grow));
  showKept();
};
/* The colours chosen before, put on before the page is painted; the theme's script takes over later. */
const showKept = () => {
  const kept = __md_get("__palette");
  if (kept && kept.color) {
    const chosen = { ...kept.color };
    if (chosen.media === "(prefers-color-scheme)") {
      const light = matchMedia("(prefers-color-scheme: light)").matches;
      const option = document.querySelector(
        `[data-md-color-media="(prefers-color-scheme: ${light ? "light" : "dark"})"]`
      );
      for (const name of ["media", "scheme", "primary", "accent"])
        chosen[name] = option.getAttribute(`data-md-color-${name}`);
    }
    for (const [name, value] of Object.entries(chosen))
      document.body.setAttribute(`data-md-color-${name}`, value);
  }
};
