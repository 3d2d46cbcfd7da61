/* What stays on the phone, and how elements are made. */
const address = location.href.split(/[?#]/)[0];
// The pocket page has its script inside, and nothing beside it.
const home = document.currentScript.src ? new URL("../", document.currentScript.src) : null;
const pageName = home ? address.slice(home.href.length) || "index.html" : "pocket.html";
const PREFIX = `trip-kit ${document.querySelector('meta[name="kit"]')?.content ?? "kit"} `;

/* Some viewers refuse storage altogether: then things last as long as the page, and nothing breaks. */
const unkept = new Map();
const kept = {
  get lasts() {
    try {
      localStorage.setItem(`${PREFIX}?`, "1");
      localStorage.removeItem(`${PREFIX}?`);
      return true;
    } catch { return false; }
  },
  get(name) {
    try { return JSON.parse(localStorage.getItem(PREFIX + name)); } catch { return unkept.get(name) ?? null; }
  },
  set(name, value) {
    unkept.set(name, value);
    try {
      if (value === null) localStorage.removeItem(PREFIX + name);
      else localStorage.setItem(PREFIX + name, JSON.stringify(value));
    } catch { /* lasts as long as the page */ }
  },
  forgetAll() {
    unkept.clear();
    try {
      for (const name of Object.keys(localStorage)) {
        if (name.startsWith(PREFIX)) localStorage.removeItem(name);
      }
    } catch { /* nothing was kept */ }
  },
};

const make = (tag, props = {}, ...inner) => {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(props)) {
    if (name in element) element[name] = value;
    else element.setAttribute(name, value);
  }
  element.append(...inner);
  return element;
};
const button = (text, press) => make("button", { type: "button", className: "kit-button", onclick: press }, text);
const press = (toggle, on) => toggle.setAttribute("aria-pressed", String(on));
const two = (n) => String(n).padStart(2, "0");
const all = (selector, within = document) => [...within.querySelectorAll(selector)];
