/* What a kit does beyond reading: tick-offs and timers that survive a reload, a screen that stays
   on, amounts for another party. Everything here is an extra; without it the pages say the same. */
"use strict";
(() => {
  const WORDS = {
    untick: "Untick all",
    awake: "Keep the screen on",
    left: "left – stop",
    over: "Time is up – stop",
    timers: "Timers",
    fewer: "One person fewer",
    more: "One person more",
    people: (n) => (n === 1 ? "person" : "people"),
    planned: (n) => `As planned: ${n}`,
    changed: "Amounts are for this party now. Minutes and fuel are as planned.",
    table: "Wide table, scroll sideways",
    mugs: (many) => (many ? "mugs" : "mug"),
    potfuls: (n) => (n === 1 ? "potful" : "potfuls"),
  };
  const here = document.currentScript;
  const home = new URL("../", here.src);
  const meta = document.querySelector('meta[name="kit"]');
  const kit = meta ? meta.content : "kit";
  const pageName = location.href.split(/[?#]/)[0].slice(home.href.length) || "index.html";

  /* Some viewers refuse storage altogether: then things are forgotten, and nothing breaks. */
  const store = (storage) => ({
    get(name) {
      try { return JSON.parse(storage().getItem(`trip-kit ${kit} ${name}`)); } catch { return null; }
    },
    set(name, value) {
      try { storage().setItem(`trip-kit ${kit} ${name}`, JSON.stringify(value)); } catch { /* kept for now only */ }
    },
  });
  const kept = store(() => localStorage);
  const keptInTab = store(() => sessionStorage);

  const make = (tag, props = {}, ...inner) => {
    const element = Object.assign(document.createElement(tag), props);
    element.append(...inner);
    return element;
  };
  const button = (text, press) => make("button", { type: "button", className: "kit-button", onclick: press }, text);

  document.documentElement.classList.add("kit-js");

  /* ---- tick-offs: known by their words, so that a step put in later shifts none ---- */
  const startTicks = () => {
    const ticks = new Map();
    const seen = new Map();
    for (const box of document.querySelectorAll('.steps input[type="checkbox"], input.tick')) {
      const line = box.closest("label") || box.parentElement;
      const words = line.textContent.replace(/\s+/g, " ").trim();
      const count = (seen.get(words) || 0) + 1;
      seen.set(words, count);
      ticks.set(`${count} ${words}`, box);
    }
    if (!ticks.size) return;
    const name = `ticks ${pageName}`;
    const show = (box) => box.closest("li")?.classList.toggle("done", box.checked);
    const keep = () => kept.set(name, [...ticks].filter(([, box]) => box.checked).map(([key]) => key));
    const before = new Set(kept.get(name) || []);
    for (const [key, box] of ticks) {
      box.checked = before.has(key);
      show(box);
      box.addEventListener("change", () => { show(box); keep(); });
    }
    const first = document.querySelector(".steps");
    if (!first) return;
    const tools = make("div", { className: "kit-tools" });
    tools.append(button(WORDS.untick, () => {
      for (const box of ticks.values()) { box.checked = false; show(box); }
      keep();
    }));
    if (navigator.wakeLock) tools.append(awakeButton());
    first.before(tools);
  };

  /* ---- a screen that stays on while the cook wants it ---- */
  const awakeButton = () => {
    let lock = null;
    let wanted = false;
    const toggle = button(WORDS.awake, async () => { wanted = !wanted; await follow(); });
    const follow = async () => {
      try {
        if (wanted && !lock && document.visibilityState === "visible") {
          lock = await navigator.wakeLock.request("screen");
          lock.addEventListener("release", () => { lock = null; });
        } else if (!wanted && lock) await lock.release();
      } catch { wanted = false; }
      toggle.setAttribute("aria-pressed", String(wanted));
    };
    toggle.setAttribute("aria-pressed", "false");
    document.addEventListener("visibilitychange", follow);
    return toggle;
  };

  /* ---- timers: only the end is kept, so a reload or a sleeping phone loses nothing ---- */
  let sound = null;
  const beep = () => {
    if (!sound || sound.state !== "running") return;
    for (const [at, pitch] of [[0, 880], [.25, 880], [.5, 1175]]) {
      const tone = sound.createOscillator();
      const volume = sound.createGain();
      tone.frequency.value = pitch;
      volume.gain.value = .25;
      tone.connect(volume).connect(sound.destination);
      tone.start(sound.currentTime + at);
      tone.stop(sound.currentTime + at + .18);
    }
  };
  const clock = (ms) => {
    const seconds = Math.max(0, Math.ceil(ms / 1000));
    const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
    const two = (n) => String(n).padStart(2, "0");
    return h ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
  };
  const startTimers = () => {
    const RING_MS = 60000;
    const running = () => kept.get("timers") || memory;
    let memory = [];
    const keep = (timers) => { memory = timers; kept.set("timers", timers); };
    const buttons = new Map();
    for (const [number, starter] of [...document.querySelectorAll("button.timer")].entries()) {
      const id = `${pageName} ${number} ${starter.dataset.minutes}`;
      buttons.set(id, { starter, words: starter.textContent });
      starter.addEventListener("click", () => press(id, starter));
    }
    const bar = make("div", { className: "kit-timers", hidden: true });
    bar.setAttribute("role", "region");
    bar.setAttribute("aria-label", WORDS.timers);
    const alarm = make("div", { className: "md-visually-hidden" });
    alarm.setAttribute("role", "alert");
    document.body.prepend(bar);
    const inBar = new Map();
    const title = document.title;
    const rung = new Set();

    const press = (id, starter) => {
      const timers = running();
      if (timers.some((timer) => timer.id === id)) return stop(id);
      const minutes = Number(starter.dataset.minutes);
      if (!(minutes > 0)) return;
      try { sound ||= new AudioContext(); sound.resume(); } catch { /* the page shows it all the same */ }
      const label = starter.dataset.label || document.querySelector("h1")?.textContent.trim() || "";
      keep([...timers, { id, label, end: Date.now() + minutes * 60000 }]);
      tick();
    };
    const stop = (id) => {
      rung.delete(id);
      keep(running().filter((timer) => timer.id !== id));
      tick();
    };
    const text = (timer, left) => (left > 0 ? `${clock(left)} ${WORDS.left}` : WORDS.over);

    const tick = () => {
      const now = Date.now();
      const timers = running();
      const ids = new Set(timers.map((timer) => timer.id));
      for (const [id, { starter, words }] of buttons) {
        const timer = timers.find((one) => one.id === id);
        starter.classList.toggle("running", Boolean(timer) && timer.end > now);
        starter.classList.toggle("rung", Boolean(timer) && timer.end <= now);
        starter.textContent = timer ? text(timer, timer.end - now) : words;
      }
      for (const timer of timers) {
        const left = timer.end - now;
        if (!inBar.has(timer.id)) {
          const shown = make("button", { type: "button", className: "timer", onclick: () => stop(timer.id) });
          inBar.set(timer.id, shown);
          bar.append(shown);
        }
        const shown = inBar.get(timer.id);
        shown.textContent = `${timer.label}: ${text(timer, left)}`;
        shown.classList.toggle("rung", left <= 0);
        if (left <= 0 && !rung.has(timer.id)) {
          rung.add(timer.id);
          alarm.textContent = `${timer.label}: ${WORDS.over}`;
          document.body.append(alarm);
          try { navigator.vibrate?.([300, 150, 300]); } catch { /* no motor */ }
        }
        if (left <= 0 && left > -RING_MS) beep();
      }
      for (const [id, shown] of inBar) {
        if (!ids.has(id)) { shown.remove(); inBar.delete(id); }
      }
      bar.hidden = !timers.length;
      document.title = timers.some((timer) => timer.end <= now) ? `● ${title}` : title;
    };
    tick();
    setInterval(tick, 1000);
    document.addEventListener("visibilitychange", tick);
  };

  /* ---- amounts for another party: rounded exactly as the build rounds them ---- */
  const NBSP = "\u00a0";
  const SHOWN = {
    "g metric": [[10, "g", 1, 1], [999.5, "g", 1, 0], [Infinity, "kg", 1000, 2]],
    "g us": [[453.592, "oz", 28.349523125, 1], [Infinity, "lb", 453.59237, 2]],
    "ml metric": [[999.5, "ml", 1, 0], [Infinity, "l", 1000, 2]],
    "ml us": [[14.7, "tsp", 4.92892159375, 1], [236.5, "fl oz", 29.5735295625, 1],
      [3785.4, "cups", 236.5882365, 1], [Infinity, "gal", 3785.411784, 2]],
  };
  const rounded = (value, decimals) => Math.floor(value * 10 ** decimals + .5 + 1e-9) / 10 ** decimals;
  const digits = (value, decimals) => {
    const [whole, part = ""] = rounded(value, decimals).toFixed(decimals).split(".");
    const rest = part.replace(/0+$/, "");
    return whole.replace(/\B(?=(\d{3})+$)/g, ",") + (rest && `.${rest}`);
  };
  const quantity = (value, kind, units) => {
    const [, word, factor, decimals] = SHOWN[`${kind} ${units}`].find(([below]) => value < below);
    const number = digits(value / factor, decimals);
    return number + NBSP + (word === "cups" && number === "1" ? "cup" : word);
  };
  const mugs = (value, mug) => {
    const quarters = value > 0 ? Math.max(1, rounded(value / mug * 4, 0)) : 0;
    const number = (Math.floor(quarters / 4) || "") + ["", "¼", "½", "¾"][quarters % 4];
    return (number || "0") + NBSP + WORDS.mugs(!(quarters > 0 && quarters <= 4));
  };
  const shown = (value, data) => {
    if (data.kind === "mugs") return mugs(value, Number(data.mug));
    if (data.kind === "potfuls") {
      const count = Math.max(1, Math.ceil(value - 1e-9));
      return count + NBSP + WORDS.potfuls(count);
    }
    if (data.kind === "count") {
      const step = Number(data.step) || 1;
      return digits(rounded(value / step, 0) * step, 2);
    }
    return quantity(value, data.kind, data.units || "metric");
  };
  const startParty = () => {
    const spans = [...document.querySelectorAll(".scales[data-value][data-party]")];
    if (!spans.length) return;
    let controls = [...document.querySelectorAll(".party")];
    if (!controls.length) {
      const made = make("div", { className: "party" });
      (spans[0].closest("ul, ol, p, .wide, dl") || spans[0]).before(made);
      controls = [made];
    }
    const precedes = (a, b) => a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING;
    controls.forEach((control, number) => {
      const mine = spans.filter((span) => controls.findLastIndex((one) => precedes(one, span)) === number
        || (number === 0 && precedes(span, control)));
      if (!mine.length) return;
      const planned = Number(control.dataset.party || mine[0].dataset.party);
      const name = `party ${pageName} ${number}`;
      const words = mine.map((span) => span.textContent);
      const count = make("output");
      const people = make("span");
      const note = make("p", { hidden: true }, WORDS.changed);
      const put = (wanted) => {
        const party = Math.min(40, Math.max(1, wanted));
        keptInTab.set(name, party === planned ? null : party);
        count.textContent = String(party);
        people.textContent = WORDS.people(party);
        note.hidden = back.hidden = party === planned;
        mine.forEach((span, i) => {
          const value = Number(span.dataset.value) * party / Number(span.dataset.party);
          span.textContent = party === planned ? words[i] : shown(value, span.dataset);
        });
      };
      const step = (by) => button(by < 0 ? "−" : "+", () => put(Number(count.textContent) + by));
      const [fewer, more] = [step(-1), step(1)];
      fewer.setAttribute("aria-label", WORDS.fewer);
      more.setAttribute("aria-label", WORDS.more);
      const back = button(WORDS.planned(planned), () => put(planned));
      control.append(make("div", { className: "kit-tools" }, fewer, count, people, more, back), note);
      put(keptInTab.get(name) || planned);
    });
  };

  /* ---- a table wider than the screen can be reached and scrolled by keyboard ---- */
  const startTables = () => {
    const boxes = document.querySelectorAll(".wide");
    const look = () => {
      for (const box of boxes) {
        const wide = box.scrollWidth > box.clientWidth;
        const label = box.querySelector("caption")?.textContent || WORDS.table;
        for (const [name, value] of [["tabindex", "0"], ["role", "group"], ["aria-label", label]]) {
          if (wide) box.setAttribute(name, value);
          else box.removeAttribute(name);
        }
      }
    };
    look();
    addEventListener("resize", look);
  };

  /* ---- hosted: keep the whole kit for airplane mode; from disk there is nothing to do ---- */
  const startOffline = () => {
    if (!location.protocol.startsWith("http")) return;
    document.head.append(make("link", { rel: "manifest", href: new URL("webmanifest.json", home).href }));
    navigator.serviceWorker?.register(new URL("sw.js", home), { scope: home.pathname }).catch(() => {});
  };

  startTicks();
  startTimers();
  startParty();
  startTables();
  startOffline();
})();
