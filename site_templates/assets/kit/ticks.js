/* Tick-offs, known by their words, so that a step put in later shifts none; one step at a time;
   a screen that stays on while the cook wants it. */
const startTicks = () => {
  const seen = new Map();
  const ticks = new Map();
  for (const box of all('.steps input[type="checkbox"], input.tick')) {
    const line = box.closest("label") || box.parentElement;
    const words = line.textContent.replace(/\s+/g, " ").trim();
    const count = (seen.get(words) || 0) + 1;
    seen.set(words, count);
    ticks.set(`${count} ${words}`, box);
  }
  if (!ticks.size) return;
  const name = `ticks ${pageName}`;
  const before = new Set(kept.get(name) || []);
  const keep = () => {
    const ticked = [...ticks].filter(([, box]) => box.checked).map(([key]) => key);
    kept.set(name, ticked.length ? ticked : null);
  };
  const show = (box) => box.closest("li")?.classList.toggle("done", box.checked);
  for (const [key, box] of ticks) {
    box.checked = before.has(key);
    show(box);
    box.addEventListener("change", () => { show(box); keep(); });
  }
  const lists = all("ul.steps");
  all(".steps").forEach((list, number) => {
    const boxes = all('input[type="checkbox"]', list);
    if (!boxes.length) return;
    const tools = make("div", { className: "kit-tools" });
    if (lists.includes(list)) {
      leftOnTop(list, boxes);
      // The lists of a page have one row of buttons, above the first.
      if (list !== lists[0]) return;
      tools.append(untickButton(all("ul.steps input")));
    } else tools.append(untickButton(boxes), oneAtATime(list, boxes, number));
    const [toggle, told] = awakeTools();
    tools.append(toggle);
    // Step by step, the step comes first.
    if (list.matches(".work")) list.nextElementSibling.after(tools, told);
    else list.before(tools, told);
  });
};

/* One careless touch takes all ticks off; the next one on the same button sets them again. */
const untickButton = (boxes) => {
  let taken = [];
  const follow = () => { made.textContent = taken.length ? counted(WORDS.tickAgain, taken.length) : WORDS.untick; };
  const made = button(WORDS.untick, () => {
    const again = taken;
    taken = again.length ? [] : boxes.filter((box) => box.checked);
    for (const box of [...again, ...taken]) set(box, !box.checked);
    follow();
  });
  for (const box of boxes) {
    box.addEventListener("change", ({ isTrusted }) => {
      if (!isTrusted || !taken.length) return;
      taken = [];
      follow();
    });
  }
  return made;
};

/* What is still to do stands above what is done, each in the order of the list. */
const SINK_MS = 700; // so that one sees what one ticked
const leftOnTop = (list, boxes) => {
  const lines = boxes.map((box) => box.closest("li"));
  const sort = () => {
    const open = lines.filter((_, i) => !boxes[i].checked);
    const wanted = [...open, ...lines.filter((line) => !open.includes(line))];
    if (wanted.every((line, i) => line === list.children[i])) return;
    const held = list.contains(document.activeElement) ? document.activeElement : null;
    list.append(...wanted);
    held?.focus({ preventScroll: true });
  };
  let waiting = 0;
  list.addEventListener("change", () => {
    clearTimeout(waiting);
    waiting = setTimeout(sort, SINK_MS);
  });
  sort();
};

const set = (box, checked) => {
  box.checked = checked;
  box.dispatchEvent(new Event("change", { bubbles: true }));
};

/* Only the first step that is not ticked is seen, with a line to go back and on. What is told step
   by step begins so; elsewhere one asks for it. */
const oneAtATime = (list, boxes, number) => {
  const name = `one ${pageName} ${number}`;
  const lines = boxes.map((box) => box.closest("li"));
  const usual = list.matches(".work");
  let at = 0;
  let on = kept.get(name) ?? usual;
  const [told, then] = [make("output"), make("span")];
  // The step fills the screen, from its first word; what stands over the first one is not needed again.
  const mover = (words, move) => button(words, () => { move(); list.scrollIntoView(); });
  const back = mover(WORDS.back, () => go(at - 1));
  const next = mover(WORDS.next, () => (boxes[at].checked ? go(at + 1) : set(boxes[at], true)));
  const undo = mover(WORDS.undo, () => {
    const last = boxes.findLastIndex((box) => box.checked);
    set(boxes[last], false);
    go(last);
  });
  const moves = make("div", { className: "kit-moves", hidden: true },
    make("p", { className: "kit-then" }, told, then), make("div", { className: "kit-tools" }, back, next, undo));
  list.after(moves);
  const go = (wanted) => {
    at = Math.min(Math.max(wanted, 0), lines.length);
    list.classList.toggle("kit-one", on);
    lines.forEach((line, i) => line.classList.toggle("kit-away", on && i !== at));
    told.textContent = at < lines.length ? WORDS.stepOf(at + 1, lines.length) : WORDS.allDone;
    const after = lines[at + 1]?.querySelector(":not([hidden]) > .do");
    then.textContent = after ? ` ${WORDS.then(after.textContent.trim())}` : "";
    back.disabled = at === 0;
    next.disabled = at === lines.length;
    undo.disabled = !boxes.some((box) => box.checked);
  };
  const firstOpen = () => {
    const open = boxes.findIndex((box) => !box.checked);
    return open < 0 ? lines.length : open;
  };
  const follow = () => {
    press(toggle, on);
    moves.hidden = !on;
    go(firstOpen());
  };
  const toggle = button(WORDS.one, () => {
    on = !on;
    kept.set(name, on === usual ? null : on);
    follow();
  });
  list.addEventListener("change", () => go(firstOpen()));
  follow();
  return toggle;
};
