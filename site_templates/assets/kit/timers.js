/* Timers: only the end is kept, so a reload or a sleeping phone loses nothing, and every page of
   the kit shows and rings them. Nothing asks for leave to notify. */
const RING_MS = 60000;
// Within these a second touch stops a timer that still runs.
const SURE_MS = 4000;
let sound = null;
const openSound = () => {
  try {
    sound ||= new AudioContext();
    sound.resume();
  } catch { /* seen all the same */ }
};
const canSound = () => sound?.state === "running";
const beep = () => {
  if (!canSound()) return;
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
  return h ? `${h}:${two(m)}:${two(s)}` : `${m}:${two(s)}`;
};
const timerText = (left, sure) => {
  if (left > 0 && sure) return `${clock(left)} ${WORDS.sure}`;
  if (left > 0) return `${clock(left)} ${WORDS.left}`;
  return left > -RING_MS ? WORDS.over : WORDS.overFor(clock(-left));
};
const startTimers = () => {
  const running = () => {
    const timers = kept.get("timers");
    return Array.isArray(timers) ? timers : [];
  };
  const starters = new Map();
  all("button.timer").forEach((starter, number) => {
    const id = `${pageName} ${number}`;
    starters.set(id, starter);
    starter.addEventListener("click", () => startOrStop(id, starter));
    // Whoever goes on has heard what rang.
    starter.closest("li")?.addEventListener("change", () => {
      if (running().some((timer) => timer.id === id && timer.end <= Date.now())) stop(id);
    });
  });
  const bar = make("div", { className: "kit-timers", hidden: true, role: "region", "aria-label": WORDS.timers });
  const alarm = make("div", { className: "kit-unseen", role: "alert" });
  const silent = button(WORDS.silent, openSound);
  const locked = make("div", { className: "kit-locked" }, WORDS.locked, " ", ...awakeTools());
  bar.append(locked, silent);
  document.body.prepend(bar);
  document.body.append(alarm);
  const inBar = new Map();
  const rung = new Set();
  const title = document.title;

  const startOrStop = (id, starter) => {
    openSound();
    const timers = running();
    if (timers.some((timer) => timer.id === id)) return stopIfSure(id);
    const minutes = Number(starter.dataset.minutes);
    if (!(minutes > 0)) return;
    const label = starter.dataset.label || document.querySelector("h1")?.textContent.trim() || "";
    kept.set("timers", [...timers, { id, label, end: Date.now() + minutes * 60000 }]);
    tick();
    // The bar has taken room from below.
    starter.closest(".kit-one")?.scrollIntoView();
  };
  /* A thumb that slips stops nothing: what still runs takes two touches, what rings one. */
  const sureUntil = new Map();
  const isSure = (id) => sureUntil.get(id) > Date.now();
  const stopIfSure = (id) => {
    const timer = running().find((one) => one.id === id);
    if (!timer || timer.end <= Date.now() || isSure(id)) return stop(id);
    sureUntil.set(id, Date.now() + SURE_MS);
    tick();
  };
  const stop = (id) => {
    const timers = running().filter((timer) => timer.id !== id);
    kept.set("timers", timers.length ? timers : null);
    rung.delete(id);
    sureUntil.delete(id);
    tick();
  };
  const ring = (timer, left) => {
    if (!rung.has(timer.id)) {
      rung.add(timer.id);
      alarm.textContent = `${timer.label}: ${WORDS.over}`;
      try { navigator.vibrate?.([300, 150, 300]); } catch { /* no motor */ }
    }
    if (left > -RING_MS) beep();
  };
  const tick = () => {
    const now = Date.now();
    const timers = running();
    const ids = new Set(timers.map((timer) => timer.id));
    for (const [id, starter] of starters) {
      const timer = timers.find((one) => one.id === id);
      starter.classList.toggle("running", Boolean(timer));
      starter.classList.toggle("rung", Boolean(timer && timer.end <= now));
      starter.textContent = timer ? timerText(timer.end - now, isSure(id)) : starter.dataset.words;
    }
    for (const timer of timers) {
      if (!inBar.has(timer.id)) {
        const shown = button("", () => stopIfSure(timer.id));
        shown.append(make("span", {}, `${timer.label}: `), make("b"));
        inBar.set(timer.id, shown);
        bar.append(shown);
      }
      const left = timer.end - now;
      const shown = inBar.get(timer.id);
      shown.lastChild.textContent = timerText(left, isSure(timer.id));
      shown.classList.toggle("rung", left <= 0);
      if (left <= 0) ring(timer, left);
    }
    for (const [id, shown] of inBar) {
      if (!ids.has(id)) { shown.remove(); inBar.delete(id); }
    }
    silent.hidden = canSound();
    locked.hidden = Boolean(awake.lock) || timers.every((timer) => timer.end <= now);
    bar.hidden = !timers.length;
    document.documentElement.style.setProperty("--kit-timers", `${bar.offsetHeight}px`);
    document.title = timers.some((timer) => timer.end <= now) ? `● ${title}` : title;
  };
  for (const starter of starters.values()) starter.dataset.words ??= starter.textContent;
  // Most browsers let a page sound only after a touch; any touch will do.
  if (running().length && navigator.getAutoplayPolicy?.("audiocontext") === "allowed") openSound();
  for (const kind of ["pointerdown", "keydown"]) {
    addEventListener(kind, () => { if (running().length) openSound(); }, { passive: true });
  }
  tick();
  setInterval(tick, 1000);
  document.addEventListener("visibilitychange", tick);
  addEventListener("storage", tick);
};
