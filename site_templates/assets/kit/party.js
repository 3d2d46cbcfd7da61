/* On a recipe: other eaters than planned, another height. The figures that the page carries follow;
   where planning would choose another pot, that is told. Each cooking on the page has its own. */
const parsed = (text) => {
  try { return JSON.parse(text); } catch { return null; }
};
const startParty = () => {
  const graph = parsed(document.querySelector("script.figures")?.textContent ?? "");
  if (!graph) return;
  const boxes = all(".party[data-party]");
  const precedes = (a, b) => a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING;
  const owner = (element) => boxes.findLast((box) => precedes(box, element));
  for (const box of boxes) {
    const mine = (selector) => all(selector).filter((one) => owner(one) === box && !one.closest(".order"));
    startOneParty(box, graph, `party ${pageName} ${boxes.indexOf(box)}`, mine);
  }
};
const startOneParty = (box, own, name, mine) => {
  const graph = { ...own, formulas: { ...FORMULAS, ...own.formulas } };
  const planned = Number(box.dataset.party);
  const eaters = parsed(box.dataset.names) ?? [];
  const saved = kept.get(name) || {};
  let absent = new Set((saved.absent || []).filter((who) => eaters.includes(who)));
  let guests = saved.guests || 0;
  let altitude = saved.altitude ?? null;

  const words = new Map();
  const put = (element, text) => {
    if (!words.has(element)) words.set(element, element.textContent);
    element.textContent = text ?? words.get(element);
  };
  const count = () => planned - absent.size + guests;
  /* The changed leaves, by the places where they were told. */
  const changes = (people) => {
    const changed = new Map();
    const { eaters: who, height: where, through } = box.dataset;
    if (people > 0 && people !== planned) changed.set(who, people);
    if (altitude === null || !where) return changed;
    changed.set(through ? "height" : where, altitude);
    return through ? changed.set(where, figuresWhere(graph, changed)(through).value) : changed;
  };
  const follow = () => {
    const people = count();
    const leaves = changes(people);
    const changed = leaves.size > 0 || absent.size > 0;
    const figure = figuresWhere(graph, leaves);
    let anew = false;
    for (const one of mine("[data-figure]")) {
      const { value, moved, turned } = graph.figures[one.dataset.figure] ? figure(one.dataset.figure) : {};
      anew ||= Boolean(turned);
      put(one, turned ? WORDS.rebuild : moved ? shownAs(value, one.dataset) : undefined);
      const timer = one.matches(".lasts") && one.closest("li")?.querySelector("button.timer");
      if (!timer) continue;
      timer.dataset.planned ??= timer.dataset.minutes;
      timer.dataset.plannedWords ??= timer.dataset.words ?? timer.textContent;
      timer.hidden = Boolean(turned);
      timer.dataset.minutes = moved && !turned ? rounded(value) : timer.dataset.planned;
      timer.dataset.words = moved && !turned ? WORDS.start(duration(value)) : timer.dataset.plannedWords;
      if (!timer.classList.contains("running")) timer.textContent = timer.dataset.words;
    }
    const here = eaters.filter((who) => !absent.has(who));
    const names = eaters.length ? [...here, ...(guests ? [WORDS.guestsToo(guests)] : [])] : [WORDS.people(people)];
    told.textContent = people > 0
      ? `${WORDS.changed(WORDS.and(names), altitude === null ? "" : quantity(altitude, "m", chosenUnits()))} ${anew ? WORDS.otherPot : WORDS.follow}`
      : WORDS.nobody;
    note.hidden = !changed;
    for (const one of mine(".as-planned")) one.hidden = changed;
    shownGuests.textContent = eaters.length ? String(guests) : String(people);
    kept.set(name, changed ? { absent: [...absent], guests, altitude } : null);
  };

  const told = make("p");
  const note = make("div", { className: "kit-changed", hidden: true }, told, button(WORDS.asPlanned, () => {
    absent = new Set();
    guests = 0;
    altitude = null;
    for (const [i, tick] of ticks.entries()) tick.checked = Boolean(eaters[i]);
    if (height) { height.value = ""; height.removeAttribute("aria-invalid"); wrong.textContent = ""; }
    follow();
    change.querySelector("summary").focus();
  }));
  told.setAttribute("role", "status");

  const ticks = eaters.map((who) => make("input", {
    type: "checkbox",
    checked: !absent.has(who),
    onchange(event) {
      if (event.target.checked) absent.delete(who);
      else absent.add(who);
      follow();
    },
  }));
  const lines = eaters.map((who, i) => make("label", {}, ticks[i], make("bdi", {}, who)));
  const shownGuests = make("output");
  const step = (by, label) => {
    const made = button(by < 0 ? "−" : "+", () => {
      const least = eaters.length ? 0 : 1 - planned;
      guests = Math.min(Math.max(guests + by, least), MOST_PEOPLE - planned);
      follow();
    });
    made.setAttribute("aria-label", label);
    return made;
  };
  const guestLine = make("div", { className: "kit-row", role: "group", "aria-label": eaters.length ? WORDS.guests : WORDS.whoEats },
    ...(eaters.length ? [WORDS.guests] : []), step(-1, WORDS.fewer), shownGuests, step(1, WORDS.more));
  const who = make("fieldset", { "data-change": box.dataset.eaters }, make("legend", {}, WORDS.whoEats), ...lines, guestLine);

  const wrong = make("p", { className: "kit-wrong", role: "alert" });
  let height = null;
  let heightLine = "";
  if (box.dataset.height) {
    const perUnit = () => (chosenUnits() === "us" ? FOOT_M : 1);
    const unit = make("span");
    height = make("input", {
      type: "text",
      "data-change": box.dataset.height,
      inputMode: "numeric",
      autocomplete: "off",
      size: 6,
      onchange() {
        const text = height.value.trim();
        const metres = Number(numeral(text)) * perUnit();
        const good = text === "" || (metres >= LOWEST_M && metres <= HIGHEST_M);
        height.setAttribute("aria-invalid", String(!good));
        wrong.textContent = good ? "" : WORDS.heightWrong(quantity(LOWEST_M, "m", chosenUnits()), quantity(HIGHEST_M, "m", chosenUnits()));
        altitude = text === "" || !good ? null : metres;
        follow();
      },
    });
    const inUnits = () => {
      unit.textContent = chosenUnits() === "us" ? "ft" : "m";
      height.placeholder = String(Math.round(box.dataset.altitude / perUnit()));
      height.value = altitude === null ? "" : String(Math.round(altitude / perUnit()));
    };
    inUnits();
    document.addEventListener("kit-units", () => { inUnits(); follow(); });
    heightLine = make("label", { className: "kit-row" }, WORDS.height, height, unit);
  }
  const change = make("details", { className: "kit-change" }, make("summary", {}, WORDS.change), who, heightLine, wrong);
  box.append(change, note);
  follow();
};
