/* The first of what runs, before the text of the page is there: room for what the scripts put in, so
   that nothing jumps. A file of its own in the head would keep a phone from painting a tenth longer. */
document.documentElement.classList.replace("no-js", "js");
document.documentElement.classList.add("kit-js");
/* What only a script can use, the same on all pages: their place stands before this script. */
const grow = (told) => {
  if (typeof told === "string") return told;
  const [tag, attributes, ...inner] = told;
  const element = tag === "svg" ? document.createElementNS("http://www.w3.org/2000/svg", tag) : document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
  element.append(...inner.map(grow));
  return element;
};
/* The box of the search. */
const showSearch = (told) => document.currentScript.previousElementSibling.append(...told.map(grow));
/* The switch of colours. What was chosen is put on before the page is painted, and kept apart for
   each kit, by the folder it lies in. */
const showColours = (told) => {
  const form = document.querySelector("form[data-md-component=palette]");
  const place = `${new URL("..", document.currentScript.src).pathname}.colours`;
  form.append(...told.map(grow));
  const choices = [...form.querySelectorAll("input")];
  const light = matchMedia("(prefers-color-scheme: light)");
  let at = 0;
  try { at = Number(localStorage.getItem(place)); } catch { /* nothing is kept here */ }
  const show = () => {
    const chosen = choices[at] ?? choices[0];
    chosen.checked = true;
    for (const each of choices) each.nextElementSibling.hidden = each !== chosen;
    const scheme = `(prefers-color-scheme: ${light.matches ? "light" : "dark"})`;
    const look = chosen.dataset.mdColorMedia === "(prefers-color-scheme)"
      ? choices.find((each) => each.dataset.mdColorMedia === scheme) : chosen;
    for (const name of ["media", "scheme", "primary", "accent"])
      document.body.setAttribute(`data-md-color-${name}`, look.getAttribute(`data-md-color-${name}`));
  };
  form.addEventListener("change", () => {
    at = choices.findIndex((each) => each.checked);
    try { localStorage.setItem(place, at); } catch { /* holds for this page only */ }
    show();
  });
  light.addEventListener("change", show);
  show();
};
