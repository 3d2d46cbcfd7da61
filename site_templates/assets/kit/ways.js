/* The page of ways: every number they are reckoned from can be typed anew, and what hangs on it
   follows, by the figures that the page carries. What nobody told stays "not told". */
const AFTER_RUNS = "after-runs";
const ACROSS = [10, 20, 50, 100, 200, 500, 1e3, 2e3, 5e3, 1e4, 2e4, 5e4, 1e5];
const LETTERS = 12;
const fixed = (value, decimals) => {
  const [whole, part] = rounded(value, decimals).toFixed(decimals).replace("-", "−").split(".");
  return whole.replace(/\B(?=(\d{3})+$)/g, SAID.group) + (part ? SAID.decimal + part : "");
};
const paysAfter = (runs, years) => {
  if (runs < 0) return SAID.neverPays;
  if (years === undefined) return counted(SAID.paysAfter, runs);
  return fill(SAID.paysYears[runs === 1 ? 0 : 1], { n: digits(runs, 0), years: fixed(years, 1) });
};
/* Number as people type it: a comma or a point before the part, thousands not apart. */
const typed = (text) => (/^\d*[.,]?\d+$/.test(text) ? Number(text.replace(",", ".")) : NaN);

const startWays = () => {
  const data = document.querySelector("script.figures");
  if (!data) return;
  const graph = JSON.parse(data.textContent);
  graph.formulas = { ...FORMULAS, ...graph.formulas };
  const saved = kept.get(`ways ${pageName}`) ?? {};
  const inputs = all(".asked[data-change]").map((place) => {
    const { change, value, factor, unit, least, most, label } = place.dataset;
    const told = value === "" ? null : Number(value);
    return { place, key: change, told, now: change in saved ? saved[change] : told, factor: Number(factor), unit, least: Number(least), most: Number(most), label };
  });
  const inUnit = ({ factor }, value) => (value === null ? "" : String(Number((value / factor).toPrecision(6))).replace(".", SAID.decimal));

  const follow = () => {
    const changed = new Map(inputs.filter(({ now, told }) => now !== null && now !== told).map(({ key, now }) => [key, now]));
    const untold = new Map(inputs.filter(({ now }) => now === null).map(({ key }) => [key, 1]));
    const [figure, rests] = [figuresWhere(graph, changed), figuresWhere(graph, untold)];
    const isTold = (id) => Boolean(graph.figures[id]) && !rests(id).moved;
    const worthOf = (id, at = figure) => (isTold(id) ? at(id) : {});
    for (const one of all("[data-figure]")) {
      const id = one.dataset.figure;
      if (!graph.figures[id]) continue;
      const { value, turned } = worthOf(id);
      one.textContent = !isTold(id) ? SAID.notTold : turned ? SAID.rebuild : shown(one.dataset, value, worthOf(`${id}.years`).value);
    }
    for (const chart of all("figure.pays")) draw(chart, worthOf, figuresOf(changed));
    note.hidden = inputs.every(({ now, told }) => now === told);
    kept.set(`ways ${pageName}`, note.hidden ? null : Object.fromEntries(inputs.filter(({ now, told }) => now !== told).map(({ key, now }) => [key, now])));
  };
  const figuresOf = (changed) => (runs) => figuresWhere(graph, new Map([...changed, [AFTER_RUNS, runs]]));
  const shown = ({ kind, after = "", ...how }, value, years) => {
    if (kind === "money") return fixed(value, 2) + after;
    if (kind === "kwh") return fixed(value, 1) + after;
    return kind === "pays" ? paysAfter(value, years) : shownAs(value, { kind, after, ...how });
  };
  /* The same few lines as builder/pages/home/pays_chart.py. */
  const draw = (chart, worthOf, figureAfter) => {
    const [left, top, right, bottom] = chart.dataset.plot.split(" ").map(Number);
    const lines = all("g.saves", chart).map((line) => ({ line, name: line.dataset.name, runs: worthOf(line.dataset.runs).value }));
    const told = lines.filter(({ runs }) => runs !== undefined);
    const most = Math.max(0, ...told.map(({ runs }) => runs));
    const last = ACROSS.find((each) => each >= most * 1.25) ?? ACROSS.at(-1);
    for (const one of told) one.saved = [0, last].map((runs) => worthOf(one.line.dataset.saved, figureAfter(runs)).value);
    const ends = [0, ...told.flatMap(({ saved }) => saved)];
    const [low, high] = [Math.min(...ends), Math.max(...ends)];
    const y = (money) => bottom - (bottom - top) * (money - low) / (high - low || 1);
    let below = bottom + LETTERS;
    for (const one of [...told].sort((a, b) => a.saved[1] - b.saved[1])) {
      below = one.labelY = Math.max(Math.min(y(one.saved[1]) - 4, below - LETTERS - 3), LETTERS);
    }
    for (const { line, name, runs, saved, labelY } of lines) {
      const [way, dot, label] = line.children;
      line.toggleAttribute("hidden", runs === undefined);
      way.setAttribute("points", saved ? `${left},${y(saved[0]).toFixed(1)} ${right},${y(saved[1]).toFixed(1)}` : "");
      dot.setAttribute("r", saved && runs >= 0 ? 4 : 0);
      dot.setAttribute("cx", (left + (right - left) * Math.max(runs ?? 0, 0) / last).toFixed(1));
      dot.setAttribute("cy", y(0).toFixed(1));
      label.setAttribute("y", (labelY ?? 0).toFixed(1));
      label.textContent = saved ? `${name}: ${paysAfter(runs)}` : "";
    }
    const level = chart.querySelector("line.level");
    level.setAttribute("y1", y(0).toFixed(1));
    level.setAttribute("y2", y(0).toFixed(1));
    chart.querySelector("text.most").textContent = fixed(high, 0) + chart.dataset.after;
    chart.querySelector("text.least").textContent = fixed(low, 0) + chart.dataset.after;
    chart.querySelector("text.last").textContent = fill(SAID.runs[last === 1 ? 0 : 1], { n: digits(last, 0) });
    chart.querySelector("desc").textContent = told.map(({ line }) => line.lastElementChild.textContent).join(". ");
    chart.hidden = !told.length;
  };

  const status = make("p");
  status.setAttribute("role", "status");
  const note = make("div", { className: "kit-changed", hidden: true }, make("p", {}, SAID.changedHere), button(SAID.asInFiles, () => {
    for (const one of inputs) {
      one.now = one.told;
      one.blank.value = inUnit(one, one.now);
      one.blank.removeAttribute("aria-invalid");
    }
    status.textContent = "";
    follow();
    inputs[0].blank.focus();
  }));
  for (const one of inputs) {
    one.blank = make("input", {
      type: "text", inputMode: "decimal", autocomplete: "off", size: 6,
      value: inUnit(one, one.now), "data-change": one.key, "aria-label": one.unit ? `${one.label}, ${one.unit}` : one.label,
      placeholder: SAID.notTold,
      onchange() {
        const text = one.blank.value.trim();
        const value = typed(text) * one.factor;
        const good = text === "" || (value >= one.least && value <= one.most);
        one.blank.setAttribute("aria-invalid", String(!good));
        status.textContent = good ? "" : fill(SAID.numberWrong, { low: inUnit(one, one.least), high: inUnit(one, one.most) });
        if (good) one.now = text === "" ? null : value;
        follow();
      },
    });
    one.place.replaceChildren(one.blank, one.unit ? ` ${one.unit}` : "");
    one.place.removeAttribute("data-change");
  }
  document.querySelector(".ways-inputs").append(status, note);
  document.documentElement.classList.add("kit-ways");
  if (inputs.length) follow();
};
