/* If it is otherwise at camp: what one changes, the rows of the plan's figures follow, worked out by
   the same expressions. What cannot follow says so, and no caution goes. */
const LIMITS = {
  m: { metric: ["m", 1, 0], us: ["ft", FOOT_M, 0], least: LOWEST_M, most: HIGHEST_M },
  celsius: { metric: ["°C", 1, 0], us: ["°F", 1 / 1.8, 32], least: -60, most: 60 },
  g: { metric: ["g", 1, 0], us: ["oz", OUNCE_G, 0], least: 0, most: 100000 },
  people: { metric: ["", 1, 0], us: ["", 1, 0], least: 0, most: MOST_PEOPLE },
};
/* Figures as `figuresWhere` takes them, of rows; what goes in stands in the order of its names. */
const NAME = /\b[a-z]\w*\b(?! *\()/g;
const unpacked = ({ formulas, rows, told }) => {
  const known = formulas.map((text) => FORMULAS[text] ?? { expression: text });
  const names = known.map(({ expression, constants = {} }) => [...new Set(expression.match(NAME))].filter((name) => !(name in constants)));
  const figures = {};
  rows.forEach(([first, second, guards = []], here) => {
    const id = (one) => String(here - one);
    const listed = (one, i, j) => {
      if (typeof one === "string") return id(one);
      figures[`${here} ${i} ${j}`] = { value: one };
      return `${here} ${i} ${j}`;
    };
    const given = (one, i) => {
      if (Array.isArray(one)) return { figures: one.map((each, j) => listed(each, i, j)) };
      return typeof one === "string" ? { figure: id(one) } : { value: one };
    };
    figures[here] = typeof first === "string" ? { place: first, value: second } : {
      formula: first,
      inputs: Object.fromEntries(second.map((one, i) => [names[first][i], given(one, i)])),
      guards: guards.map((one, j) => listed(one, "guards", j)),
    };
  });
  return { formulas: known, figures, told };
};
const startOtherwise = () => {
  const box = document.querySelector("div.otherwise");
  const data = JSON.parse(document.querySelector("script.figures").textContent);
  const graph = unpacked(data);
  const name = `otherwise ${pageName}`;
  const people = all("[data-person]", box);
  const numbers = all("input[data-kind]", box);
  const choices = all("select[data-change]", box);
  const from = box.querySelector("[data-from]");
  const days = all("[data-to-come]");
  const wrong = box.querySelector(".kit-wrong");
  const note = box.querySelector(".kit-changed");
  const status = note.querySelector("[role=status]");
  const others = numbers.find((one) => one.dataset.change === "others");
  const shown = all("[data-figure]").filter((one) => one.dataset.figure in graph.told);
  const system = wantedUnits ?? box.dataset.units;
  document.addEventListener("kit-units", () => location.reload());
  const units = (one) => LIMITS[one.dataset.kind][system];

  /* What was typed, in the unit of the plan; null where nothing was, or nothing that fits. */
  const worth = (one) => {
    const text = numeral(one.value);
    const [, factor, zero] = units(one);
    const { least, most } = LIMITS[one.dataset.kind];
    const value = text === "" ? null : (Number(text) - zero) * factor;
    const fits = value === null || (value >= least && value <= most && (one !== others || Number.isInteger(value)));
    one.setAttribute("aria-invalid", String(!fits));
    return fits ? value : null;
  };
  const changes = () => {
    const changed = new Map();
    const typed = numbers.map((one) => [one, worth(one)]);
    for (const [one, value] of typed) {
      if (value !== null && value !== Number(one.dataset.planned)) changed.set(one.dataset.change, value);
    }
    for (const one of choices) {
      if (!one.selectedOptions[0].defaultSelected) changed.set(one.dataset.change, Number(one.value));
    }
    const away = people.filter((one) => !one.checked);
    for (const one of away) changed.set(one.dataset.person, 0);
    const more = changed.get("others") ?? 0;
    for (const [key, who] of Object.entries(data.eaters)) {
      const here = who.filter((i) => people[i].checked).length + (who.length === data.all ? more : 0);
      if (here !== who.length) changed.set(key, here);
    }
    for (let i = 0; from && i < from.selectedIndex; i += 1) changed.set(from.options[i].value, 0);
    return changed;
  };
  const follow = () => {
    const changed = changes();
    const figure = figuresWhere(graph, changed);
    const value = (id) => (id in graph.told ? figure(String(graph.told[id])) : {});
    let anew = false;
    for (const one of shown) {
      const { value: now, turned } = value(one.dataset.figure);
      anew ||= Boolean(turned);
      one.classList.toggle("anew", Boolean(turned));
      one.textContent = turned ? WORDS.rebuild : quantityAs(now, { kind: one.dataset.kind, units: system });
    }
    let short = false;
    for (const one of all("[data-watch]", note)) {
      const { value: now, moved, turned } = value(one.dataset.watch);
      const lasts = one.dataset.watch.startsWith("lasts.");
      one.hidden = !(moved && !turned && now !== 1) || (lasts && short);
      short ||= lasts && !one.hidden;
    }
    const when = {
      absent: people.some((one) => !one.checked),
      others: changed.has("others"),
      camp: [...numbers, ...choices].some((one) => one !== others && one.dataset.kind !== "g" && changed.has(one.dataset.change)),
    };
    for (const one of all("[data-when]", note)) one.hidden = !when[one.dataset.when];
    days.forEach((one, i) => {
      const past = Boolean(from) && i < from.selectedIndex;
      one.hidden = one.previousElementSibling.hidden = past; // with its heading
    });
    // Tables may have grown wider than the screen.
    dispatchEvent(new Event("resize"));
    wrong.textContent = numbers.some((one) => one.getAttribute("aria-invalid") === "true") ? wrong.dataset.says : "";
    note.hidden = !changed.size;
    status.textContent = anew ? status.dataset.stays : status.dataset.follows;
    const typed = [...numbers, ...choices].map((one) => [one.dataset.change, one.value]);
    kept.set(name, changed.size ? { typed: Object.fromEntries(typed), away: people.flatMap((one, i) => (one.checked ? [] : [i])), from: from?.selectedIndex ?? 0 } : null);
  };
  const asPlanned = () => {
    for (const one of people) one.checked = true;
    for (const one of numbers) one.value = "";
    for (const one of [...choices, ...(from ? [from] : [])]) {
      one.selectedIndex = [...one.options].findIndex((option) => option.defaultSelected);
    }
  };

  for (const one of numbers) {
    const [unit, factor, zero] = units(one);
    one.placeholder = digits(one.dataset.planned / factor + zero, 0);
    if (one.nextElementSibling) one.nextElementSibling.textContent = unit;
  }
  asPlanned();
  const saved = kept.get(name);
  if (saved) {
    for (const one of [...numbers, ...choices]) one.value = saved.typed[one.dataset.change] ?? one.value;
    for (const i of saved.away) if (people[i]) people[i].checked = false;
    if (from) from.selectedIndex = saved.from;
  }
  box.addEventListener("change", follow);
  note.querySelector("button").addEventListener("click", () => {
    asPlanned();
    follow();
    box.querySelector("summary").focus();
  });
  box.hidden = false;
  follow();
};
