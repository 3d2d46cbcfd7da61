/* On a recipe: other eaters than planned, another height. Amounts, mugs, potfuls, presses and
   minutes follow; what cannot follow is told. Each cooking on the page has its own. */
const LOWEST_M = -500;
const HIGHEST_M = 9000;
const MOST_PEOPLE = 40;
const FOOT_M = .3048;

const parsed = (text) => {
  try { return JSON.parse(text); } catch { return null; }
};
const startParty = () => {
  const boxes = all(".party[data-party]");
  const precedes = (a, b) => a.compareDocumentPosition(b) & Node.DOCUMENT_POSITION_FOLLOWING;
  const owner = (element) => boxes.findLast((box) => precedes(box, element));
  for (const box of boxes) {
    const mine = (selector) => all(selector).filter((one) => owner(one) === box && !one.closest(".order"));
    startOneParty(box, `party ${pageName} ${boxes.indexOf(box)}`, mine);
  }
};
const startOneParty = (box, name, mine) => {
  const planned = Number(box.dataset.party);
  const cooking = parsed(box.dataset.cooking);
  const eaters = cooking?.eaters ?? [];
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
  const follow = () => {
    const people = count();
    const share = people > 0 ? people / planned : 1;
    const changed = share !== 1 || altitude !== null || absent.size > 0;
    const meal = cooking && mealFor(cooking, share, altitude ?? cooking.altitude_m);
    for (const one of mine(".scales[data-value]")) {
      if (share === 1 && !(altitude !== null && one.dataset.kind === "potfuls")) put(one);
      else if (meal && one.dataset.kind === "potfuls") put(one, WORDS.potfuls(meal.potfuls));
      else put(one, scaledText(Number(one.dataset.value) * share, one.dataset));
    }
    for (const one of mine(".lasts")) {
      const minutes = Number(one.dataset.minutes) * (meal && "byHeight" in one.dataset ? meal.factor : 1);
      put(one, altitude === null ? undefined : duration(minutes));
      const timer = one.closest("li")?.querySelector("button.timer");
      if (!timer) continue;
      timer.dataset.planned ??= timer.dataset.minutes;
      timer.dataset.plannedWords ??= timer.dataset.words ?? timer.textContent;
      timer.dataset.minutes = altitude === null ? timer.dataset.planned : rounded(minutes);
      timer.dataset.words = altitude === null ? timer.dataset.plannedWords : WORDS.start(duration(minutes));
      if (!timer.classList.contains("running")) timer.textContent = timer.dataset.words;
    }
    for (const one of mine(".takes")) put(one, changed && meal ? duration(meal.minutes) : undefined);
    for (const one of mine(".boils-at")) put(one, meal && altitude !== null ? temperature(meal.boils, one.dataset.units) : undefined);
    for (const one of mine(".height")) put(one, altitude !== null ? quantity(altitude, "m", one.dataset.units) : undefined);
    for (const one of mine(".at-once[data-pieces]")) {
      const presses = Math.max(1, wholes(one.dataset.pieces * share / (cooking?.at_once ?? 1)));
      put(one, share === 1 ? undefined : digits(wholes(one.dataset.pieces * share / presses), 0));
    }
    const here = eaters.filter((who) => !absent.has(who));
    const names = eaters.length ? [...here, ...(guests ? [WORDS.guestsToo(guests)] : [])] : [WORDS.people(people)];
    told.textContent = people > 0
      ? `${WORDS.changed(WORDS.and(names), altitude === null ? "" : quantity(altitude, "m", chosenUnits()))} ${meal ? WORDS.follow : WORDS.followAmounts}`
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
  const who = make("fieldset", {}, make("legend", {}, WORDS.whoEats), ...lines, guestLine);

  const wrong = make("p", { className: "kit-wrong", role: "alert" });
  let height = null;
  let heightLine = "";
  if (cooking) {
    const perUnit = () => (chosenUnits() === "us" ? FOOT_M : 1);
    const unit = chosenUnits() === "us" ? "ft" : "m";
    const planHere = Math.round(cooking.altitude_m / perUnit());
    height = make("input", {
      type: "text",
      inputMode: "numeric",
      autocomplete: "off",
      size: 6,
      placeholder: String(planHere),
      value: altitude === null ? "" : String(Math.round(altitude / perUnit())),
      onchange() {
        const text = height.value.trim().replace(/[−–]/, "-");
        const metres = Number(text.replaceAll(SAID.group, "").replace(/\s/g, "").replace(SAID.decimal, ".")) * perUnit();
        const good = text === "" || (metres >= LOWEST_M && metres <= HIGHEST_M);
        height.setAttribute("aria-invalid", String(!good));
        wrong.textContent = good ? "" : WORDS.heightWrong(quantity(LOWEST_M, "m", chosenUnits()), quantity(HIGHEST_M, "m", chosenUnits()));
        altitude = text === "" || !good ? null : metres;
        follow();
      },
    });
    heightLine = make("label", { className: "kit-row" }, WORDS.height, height, unit);
  }
  const change = make("details", { className: "kit-change" }, make("summary", {}, WORDS.change), who, heightLine, wrong);
  box.append(change, note);
  follow();
};
