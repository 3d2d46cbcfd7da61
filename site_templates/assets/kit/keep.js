/* What stays on the phone, and how elements are made. */
const address = location.href.split(/[?#]/)[0];
// The pocket page has its script inside, and nothing beside it.
const home = document.currentScript.src ? new URL("../", document.currentScript.src) : null;
const pageName = home ? address.slice(home.href.length) || "index.html" : "pocket.html";
const PREFIX = `trip-kit ${document.querySelector('meta[name="kit"]')?.content ?? "kit"} `;

/* Some viewers refuse storage, and a full phone takes no more: then things last as long as the tab,
   or as long as the page, and nothing breaks. What could not be kept goes before what was. */
const unkept = new Map();
const STORES = ["localStorage", "sessionStorage"];
const kept = {
  get lasts() {
    try {
      localStorage.setItem(`${PREFIX}?`, "1");
      localStorage.removeItem(`${PREFIX}?`);
      return true;
    } catch { return false; }
  },
  get(name) {
    if (unkept.has(name)) return unkept.get(name);
    for (const store of [...STORES].reverse()) {
      try {
        const found = JSON.parse(window[store].getItem(PREFIX + name));
        if (found !== null) return found;
      } catch { /* ask the other */ }
    }
    return null;
  },
  set(name, value) {
    let done = value === null;
    for (const store of STORES) {
      try {
        if (done) window[store].removeItem(PREFIX + name);
        else {
          window[store].setItem(PREFIX + name, JSON.stringify(value));
          done = true;
        }
      } catch { /* try the other */ }
    }
    if (done) unkept.delete(name);
    else unkept.set(name, value);
  },
  forgetAll() {
    unkept.clear();
    for (const store of STORES) {
      try {
        for (const name of Object.keys(window[store])) {
          if (name.startsWith(PREFIX)) window[store].removeItem(name);
        }
      } catch { /* nothing was kept */ }
    }
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
