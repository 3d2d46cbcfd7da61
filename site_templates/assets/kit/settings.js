/* Which units stand out, where amounts are read first; at the end of every page what is kept offline,
   and forgetting. */
const METRIC = /^(?:mg|g|kg|ml|l|°C|m|km|cm|hPa)$/;
const US = /^(?:oz|lb|tsp|fl oz|cups?|gal|°F|ft|mi|in|inHg)$/;
const QUANTITY = /[−\d][\d.,]*\u00a0(fl oz|[A-Za-z°]+)/g;
const WHOLE = new RegExp(`^${QUANTITY.source}$`);
const systemOf = (text) => {
  const unit = WHOLE.exec(text.trim())?.[1] ?? "";
  return METRIC.test(unit) ? "metric" : US.test(unit) ? "us" : "";
};

/* Each quantity in small type, with the one that it says again. */
const pairs = [];
const findPairs = () => {
  for (const small of all("article .small")) {
    const system = systemOf(small.textContent);
    const main = system && mainOf(small, system);
    if (main) pairs.push({ main, small, system });
  }
};
const mainOf = (small, system) => {
  const { kind, figure } = small.dataset;
  if (kind) {
    return all(`[data-kind="${kind}"][data-figure="${figure}"]:not(.small)`, small.closest("td, li, p, dd") ?? document)
      .findLast((one) => one.dataset.units !== system && one.compareDocumentPosition(small) & Node.DOCUMENT_POSITION_FOLLOWING);
  }
  let before = small.previousSibling;
  if (before?.nodeType === Node.TEXT_NODE && !before.data.trim()) before = before.previousSibling;
  if (!before) return null;
  // Words may stand between the two: "40 g each 1.4 oz".
  const found = [...before.textContent.matchAll(QUANTITY)].at(-1);
  if (!found || systemOf(found[0]) !== (system === "us" ? "metric" : "us")) return null;
  if (before.nodeType === Node.ELEMENT_NODE) return before;
  const rest = before.splitText(found.index);
  rest.data = rest.data.slice(found[0].length);
  const wrapped = make("span", {}, found[0]);
  rest.before(wrapped);
  return wrapped;
};
let wantedUnits = kept.get("units");
const ownUnits = () => document.querySelector("[data-in]:not([hidden])")?.dataset.in ?? (pairs[0]?.system === "metric" ? "us" : "metric");
const chosenUnits = () => wantedUnits ?? ownUnits();
const showUnits = () => {
  for (const { main, small, system } of pairs) {
    const swapped = system === chosenUnits();
    main.classList.toggle("small", swapped);
    small.classList.toggle("small", !swapped);
    small.classList.toggle("kit-main", swapped);
    main.classList.toggle("kit-other", swapped);
    small.classList.toggle("kit-other", !swapped);
  }
  const chosen = chosenUnits();
  for (const one of all("[data-in]")) one.hidden = one.dataset.in !== chosen;
};
const startUnits = () => {
  const first = document.querySelector("article ol.steps") ?? pairs[0]?.main.closest("article > *");
  if (!first || !(pairs.length || document.querySelector("[data-in]"))) return null;
  const choices = [["metric", "g, ml"], ["us", "oz, cups"]].map(([system, units]) => {
    const made = button(units, () => {
      wantedUnits = system;
      kept.set("units", system);
      showUnits();
      follow();
      document.dispatchEvent(new Event("kit-units"));
    });
    return { made, system };
  });
  const follow = () => { for (const { made, system } of choices) press(made, system === chosenUnits()); };
  follow();
  const group = make("div", { className: "kit-units", role: "group", "aria-label": WORDS.units }, ...choices.map(({ made }) => made));
  // Step by step, the step comes first.
  if (first.matches(".work")) { first.after(group); return null; }
  // Beside the heading where that is short, so that nothing moves; else at the end.
  let heading = first;
  while (heading && !heading.matches("h2, h3")) heading = heading.previousElementSibling;
  if (!heading || heading.textContent.trim().length > Math.min(14, innerWidth / 30)) return group;
  heading.after(group);
  group.classList.add("kit-beside");
  return null;
};

const startSettings = () => {
  findPairs();
  showUnits();
  const units = startUnits();
  const article = document.querySelector("article");
  if (!article) return;
  const forget = button(WORDS.forget, () => {
    if (forget.textContent === WORDS.forget) {
      forget.textContent = WORDS.forgetSure;
      setTimeout(() => { forget.textContent = WORDS.forget; }, 6000);
      return;
    }
    kept.forgetAll();
    location.reload();
  });
  const offline = make("p", { className: "kit-offline", role: "status" });
  const settings = make("details", { className: "kit-settings" }, make("summary", {}, WORDS.settings),
    make("div", { className: "kit-row" }, forget));
  const unstored = kept.lasts ? [] : [make("p", { className: "kit-offline" }, WORDS.unstored)];
  article.append(make("div", { className: "kit-end" }, units ?? "", settings, offline, ...unstored));
  startOffline(offline);
};

/* Hosted: keep the whole kit for airplane mode; from disk there is nothing to do. */
const startOffline = (line) => {
  if (!location.protocol.startsWith("http")) { line.textContent = WORDS.fromDisk; return; }
  document.head.append(make("link", { rel: "manifest", href: new URL("webmanifest.json", home).href }));
  const workers = navigator.serviceWorker;
  if (document.querySelector("meta[name=kit-preview]")) return;
  if (!workers) { line.textContent = WORDS.noWorker; return; }
  const toast = make("div", { className: "kit-toast", role: "status", hidden: true });
  document.body.append(toast);
  const say = (text, ...more) => { toast.replaceChildren(text, ...more); toast.hidden = false; };
  const ready = () => { line.textContent = `${WORDS.ready} ${WORDS.addHome}`; };
  let asked = false;
  workers.addEventListener("controllerchange", () => { if (asked) location.reload(); });
  const fresh = (worker) => say(`${WORDS.fresh} `, button(WORDS.useFresh, () => { asked = true; worker.postMessage("use it now"); }));
  const watch = (worker) => {
    const first = !workers.controller;
    if (first) {
      line.textContent = WORDS.fetching;
      workers.addEventListener("message", ({ data: { kept: n, all } }) => {
        if (worker.state === "installing") line.textContent = fill(WORDS.fetched, { n, all });
      });
      workers.startMessages();
    }
    worker.addEventListener("statechange", () => {
      if (worker.state === "installed" && !first) fresh(worker);
      if (worker.state === "activated" && first) {
        ready();
        say(WORDS.ready);
        setTimeout(() => { toast.hidden = true; }, 8000);
      }
      if (worker.state === "redundant" && first && !workers.controller) line.textContent = WORDS.notKept;
    });
  };
  const register = async () => {
    try {
      const registration = await workers.register(new URL("sw.js", home), { scope: home.pathname });
      if (registration.active) ready();
      if (registration.waiting && workers.controller) fresh(registration.waiting);
      if (registration.installing) watch(registration.installing);
      registration.addEventListener("updatefound", () => watch(registration.installing));
    } catch { line.textContent = WORDS.notKept; }
  };
  // The first page comes first; the rest of the kit is fetched when it stands.
  if (document.readyState === "complete") register();
  else addEventListener("load", register);
};
