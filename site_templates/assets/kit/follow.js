/* Runs are followed while they dry: weights are typed, kept on this phone, judged at once, and
   saved as a file that `tripkit log --from` takes over. Without it the page tells what stood in
   the log. */
const HOUR_MIN = 60;
const HALF_HOUR = 30;
const SVG = document.querySelector("svg")?.namespaceURI;  // every page has pictures of the theme
const CURVE_STEPS = 24;

const startFollowing = () => {
  const place = document.querySelector(".follow");
  if (!place) return;
  const data = JSON.parse(document.querySelector("script.figures").textContent);
  const { forecast, judged } = startFit(data);
  const inG = data.units === "us" ? OUNCE_G : 1;
  const unit = data.units === "us" ? "oz" : "g";
  const mass = (g) => quantity(g, "g", data.units);
  const percent = (share) => `${digits(share * 100, 0)}${NBSP}%`;
  const language = document.documentElement.lang || "en";
  const hour = { weekday: "short", hour: "2-digit", minute: "2-digit", hourCycle: "h23" };
  const clock = new Intl.DateTimeFormat(language, hour);
  const calendar = new Intl.DateTimeFormat(language, { ...hour, day: "numeric", month: "short", year: "numeric" });
  const told = make("p", { className: "kit-sent", role: "status" });
  const local = (date) => new Date(date - date.getTimezoneOffset() * 60000).toISOString();

  /* What was typed: of runs in the log by their batch, and runs that are new. */
  const state = { of: {}, own: [], ...kept.get("runs") };
  const notKept = make("p", { className: "kit-wrong", role: "alert" });
  const keep = () => {
    kept.set("runs", state);
    // What was not stored is given back as it is, or not at all.
    const back = kept.get("runs");
    const stays = back !== state && JSON.stringify(back) === JSON.stringify(state);
    notKept.textContent = stays ? "" : WORDS.notStored;
  };
  const typedOf = (batch) => (state.of[batch] ??= { weighings: [], tests: [], end: null });
  const known = new Map(data.runs.map((run) => [run.batch, run]));
  /* A new run that stands in the log by now is that one. */
  state.own = state.own.filter((own) => {
    const same = data.runs.find((run) => run.holds === own.holds && run.started === own.started && Math.abs(run.fresh - own.fresh) < .1);
    if (same) Object.assign(typedOf(same.batch), own.typed);
    return !same;
  });
  for (const [batch, typed] of Object.entries(state.of)) {
    const inLog = new Set((known.get(batch)?.weighings ?? []).map(([minutes]) => minutes));
    typed.weighings = typed.weighings.filter(([minutes]) => !inLog.has(minutes));
  }

  const loadOf = (run, typed) => ({
    ...run, ...run.rules,
    weighings: [...run.weighings, ...typed.weighings],
    tests: [...new Set([...run.tests, ...typed.tests])],
  });

  // -- what is told of a run ----------------------------------------------------------------------

  /* A forecast is told to the half hour, as far as anyone can rely on it. */
  const halfHours = (minutes) => rounded(minutes / HALF_HOUR) * HALF_HOUR;
  const at = (run, minutes) => clock.format(new Date(new Date(run.started).getTime() + halfHours(minutes) * 60000));
  const fact = (name, value) => make("div", {}, make("dt", {}, name), make("dd", {}, value));
  const facts = (run, load, verdict, ahead) => {
    const list = [fact(WORDS.enoughAt, mass(verdict.target))];
    if (load.weighings.length) {
      list.push(fact(WORDS.toGo, verdict.toGo > 0 ? mass(verdict.toGo) : WORDS.nothingToGo));
      list.push(fact(WORDS.moisture, fill(WORDS.open, {
        likely: percent(verdict.likely), low: percent(verdict.low), high: percent(verdict.high), limit: percent(load.limit),
      })));
    }
    if (ahead?.never) list.push(fact(WORDS.forecast, WORDS.never));
    else if (ahead) {
      list.push(fact(WORDS.forecast, fill(WORDS.when, {
        when: at(run, ahead.dryAfter), earliest: at(run, ahead.earliest), latest: at(run, ahead.latest),
      })));
    } else list.push(fact(WORDS.forecast, load.weighings.length > 1 ? WORDS.noCurve : WORDS.twoTell));
    if (verdict.verdict === "not-dry" && load.weighings.length) list.push(fact(WORDS.look, lookNext(run, ahead)));
    return make("dl", { className: "glance" }, ...list);
  };
  const lookNext = (run, ahead) => {
    if (!ahead || ahead.never) return WORDS.lookHour;
    const since = elapsed(run);
    return since !== null && since >= ahead.look ? WORDS.lookNow : at(run, ahead.look);
  };
  /* Minutes since a run began by this phone's clock; null where that cannot be. */
  const elapsed = (run) => {
    const minutes = (Date.now() - new Date(run.started)) / 60000;
    return minutes > 0 && minutes <= data.fit.longest_min ? minutes : null;
  };
  const says = (load, { verdict, toGo }) => {
    const act = { "not-dry": "dry-on", undecided: load.fruit ? "test-fruit" : "test", discard: load.never, dry: load.onceDry }[verdict];
    const words = act ? fill(WORDS.acts[act], { mass: mass(toGo), heat: data.heat }) : WORDS.takeOut;
    return `${WORDS.verdicts[verdict]}. ${words}`;
  };

  // -- the curve ----------------------------------------------------------------------------------

  const draw = (tag, props, ...inner) => {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(props)) element.setAttribute(name, value);
    element.append(...inner);
    return element;
  };
  const chart = (load, { target }, { dryAfter, earliest, latest, curve }, name) => {
    const [wide, top, high, left] = [292, 18, 120, 2];
    const last = Math.max(dryAfter, load.weighings.at(-1)[0]);
    const longest = Math.max(latest, last);
    const ground = top + high;
    const x = (minutes) => left + wide * minutes / longest;
    const y = (grams) => ground - high * grams / load.fresh;
    const points = Array.from({ length: CURVE_STEPS + 1 }, (_, i) => last * i / CURVE_STEPS);
    const text = (words, px, py, anchor = "start") => draw("text", { x: px, y: py, "text-anchor": anchor }, words);
    const level = (py, dashed) => draw("line", { x1: 0, x2: 296, y1: py, y2: py, stroke: "currentColor", ...(dashed && { "stroke-dasharray": "6 4" }) });
    const words = [...load.weighings.map(([minutes, grams]) => fill(WORDS.after, { time: duration(minutes), mass: mass(grams) })),
      fill(WORDS.dryAt, { mass: mass(target) })].join(". ");
    const box = (bx, by, width, height) => draw("rect", { x: bx, y: by, width, height, fill: "currentColor", "fill-opacity": .35, stroke: "currentColor" });
    // As builder/pages/charts/drying_run.py: over the curve, or where the line lies high, under it.
    const middle = (x(earliest) + Math.max(x(latest), x(earliest) + 2)) / 2;
    const [anchor, aside] = middle > 170 ? ["end", -3] : ["start", 3];
    const lines = [fill(WORDS.dryAt, { mass: mass(target) }), WORDS.likely];
    const isHigh = y(target) < top + high / 2;
    const from = isHigh ? y(target) + 21 : 12;
    const [leadFrom, leadTo] = isHigh ? [y(target) + 4.5, from + 17] : [2, y(target) - 4.5];
    return make("figure", { className: "chart" }, make("figcaption", {}, WORDS.chart),
      draw("svg", { viewBox: "0 0 296 160", width: 400, height: 216, role: "img", "aria-label": `${name}. ${words}`, "font-size": 12, fill: "currentColor" },
        box(x(earliest), y(target) - 4.5, Math.max(x(latest) - x(earliest), 2), 9),
        draw("line", { x1: middle, x2: middle, y1: leadFrom, y2: leadTo, stroke: "currentColor" }),
        level(y(target), true), level(ground, false),
        draw("polyline", { points: points.map((one) => `${x(one).toFixed(1)},${y(curve(one)).toFixed(1)}`).join(" "), fill: "none", stroke: "currentColor", "stroke-width": 2 }),
        ...load.weighings.map(([minutes, grams]) => draw("circle", { cx: x(minutes), cy: y(grams), r: 4 })),
        text(mass(load.fresh), left, 12),
        text(WORDS.begin, left, ground + 15), text(duration(halfHours(longest)), 294, ground + 15, "end"),
        ...lines.map((line, i) => text(line, middle + aside, from + 15 * i, anchor))));
  };

  // -- one run ------------------------------------------------------------------------------------

  const field = (words, props) => {
    const input = make("input", props);
    return [make("label", { className: "kit-field" }, make("span", {}, words), input), input];
  };
  const number = (props) => ({ type: "number", inputMode: "decimal", step: "any", min: 0, ...props });
  const card = (run, typed, id, forget) => {
    const [shown, behind] = [make("div", { "aria-live": "polite" }), make("div")];
    const wrong = make("p", { className: "kit-wrong", role: "alert" });
    const [weightLine, weight] = field(fill(WORDS.weight, { unit }), number({}));
    const [hoursLine, hours] = field(WORDS.hours, number({}));
    const [dayLine, day] = field(WORDS.outOn, { type: "date", value: typed.end?.on ?? "" });
    const [packsLine, packs] = field(WORDS.packs, number({ step: 1, min: 1, inputMode: "numeric", value: typed.end?.packs ?? "" }));
    const out = make("input", { type: "checkbox", checked: Boolean(typed.end) });
    const end = make("div", {}, make("p"), make("div", { className: "kit-row" }, dayLine, packsLine));
    const show = () => {
      const load = loadOf(run, typed);
      const verdict = judged(load);
      const ahead = load.never ? null : forecast(load);
      const lines = load.weighings.map(([minutes, grams], i) => {
        const words = fill(WORDS.after, { time: duration(minutes), mass: mass(grams) });
        const mine = i - run.weighings.length;
        if (mine < 0) return make("li", {}, words);
        const remove = button("×", () => { typed.weighings.splice(mine, 1); keep(); show(); weight.focus(); });
        remove.setAttribute("aria-label", fill(WORDS.remove, { what: words }));
        return make("li", {}, words, " ", remove);
      });
      shown.replaceChildren(make("p", {}, make("strong", {}, says(load, verdict))),
        ...(load.never ? [] : [facts(run, load, verdict, ahead)]));
      behind.replaceChildren(...(ahead && !ahead.never ? [chart(load, verdict, ahead, run.name)] : []),
        ...(lines.length ? [make("h3", {}, WORDS.weighed), make("ul", { className: "kit-weights" }, ...lines)] : []));
      const since = elapsed(run);
      hours.value = since === null ? "" : String(rounded(since / HOUR_MIN, 1));
      out.disabled = !load.weighings.length;
      end.hidden = !typed.end;
      end.firstChild.textContent = fill(WORDS.endNote, { mass: mass(verdict.now) });
    };
    const add = (event) => {
      event.preventDefault();
      const load = loadOf(run, typed);
      const [before, most] = load.weighings.at(-1) ?? [0, load.fresh];
      const grams = rounded(weight.value * inG, 1);
      const minutes = rounded(hours.value * HOUR_MIN);
      const faults = [
        [weight, !(grams > 0 && grams <= most), fill(WORDS.badWeight, { most: mass(most) })],
        [weight, grams < load.lightest * load.fresh, fill(WORDS.tooLight, { mass: mass(grams) })],
        [hours, !(minutes > before && minutes <= data.fit.longest_min), fill(WORDS.badHours, { least: digits(before / HOUR_MIN, 1) })],
      ];
      const fault = faults.find(([, is]) => is);
      for (const input of [weight, hours]) input.setAttribute("aria-invalid", String(fault?.[0] === input));
      wrong.textContent = fault?.[2] ?? "";
      if (fault) { fault[0].focus(); return; }
      typed.weighings.push([minutes, grams]);
      weight.value = "";
      keep();
      show();
      weight.focus();
    };
    const test = (name) => make("label", {}, make("input", {
      type: "checkbox", checked: run.tests.includes(name) || typed.tests.includes(name), disabled: run.tests.includes(name),
      onchange({ target }) {
        typed.tests = target.checked ? [...typed.tests, name] : typed.tests.filter((one) => one !== name);
        keep();
        show();
      },
    }), WORDS[name]);
    const ended = () => {
      typed.end = out.checked ? { on: day.value || local(new Date()).slice(0, 10), packs: Number(packs.value) || null } : null;
      if (typed.end) day.value = typed.end.on;
      keep();
      show();
    };
    for (const input of [out, day, packs]) input.addEventListener("change", ended);
    show();
    return make("section", { className: "kit-run kit-change" }, make("h2", { id, tabIndex: -1 }, run.name),
      make("p", {}, fill(WORDS.in, { mass: mass(run.fresh), when: calendar.format(new Date(run.started)) })), shown,
      make("form", { className: "kit-row", noValidate: true, onsubmit: add }, weightLine, hoursLine,
        make("button", { type: "submit", className: "kit-button" }, WORDS.add)), wrong, behind,
      make("fieldset", {}, make("legend", {}, WORDS.tests), ...["snap", "constant", ...(run.fruit ? ["jar"] : [])].map(test)),
      make("fieldset", {}, make("label", {}, out, WORDS.end), end),
      ...(forget ? [button(WORDS.forgetRun, forget)] : []));
  };

  // -- a new run ----------------------------------------------------------------------------------

  const ownRun = (own) => {
    const food = data.foods.find((one) => (one.food ?? one.recipe) === own.holds);
    return food && { ...food, ...own, batch: "", weighings: [], tests: [], rules: food.rules[own.method] };
  };
  const begin = () => {
    const [foodLine, food] = field(WORDS.food, { type: "text", autocomplete: "off" });
    const names = make("datalist", { id: "kit-foods" }, ...data.foods.map(({ name }) => make("option", { value: name })));
    food.setAttribute("list", "kit-foods");
    const ways = [...data.dryers.map(([id, name, method]) => [`dryer ${id}`, name, method]), ...data.methods.map(([id, name]) => [id, name, id])];
    const how = make("select", {}, ...ways.map(([value, name]) => make("option", { value }, name)));
    const [freshLine, fresh] = field(fill(WORDS.fresh, { unit }), number({}));
    const [startLine, start] = field(WORDS.wentIn, { type: "datetime-local", value: local(new Date()).slice(0, 16) });
    const wrong = make("p", { className: "kit-wrong", role: "alert" });
    const follow = (event) => {
      event.preventDefault();
      const found = data.foods.find(({ name }) => name.toLowerCase() === food.value.trim().toLowerCase());
      const [value, , method] = ways[how.selectedIndex];
      const grams = rounded(fresh.value * inG, 1);
      const faults = [
        [food, !found, WORDS.noFood],
        [how, found && !found.rules[method], WORDS.notSo],
        [how, found?.rules[method]?.never, WORDS.acts["plan-otherwise"]],
        [fresh, !(grams > 0), WORDS.badFresh],
        [start, !start.value, WORDS.wentIn],
      ];
      const fault = faults.find(([, is]) => is);
      for (const input of [food, how, fresh, start]) input.setAttribute("aria-invalid", String(fault?.[0] === input));
      wrong.textContent = fault?.[2] ?? "";
      if (fault) { fault[0].focus(); return; }
      const dryer = value.startsWith("dryer ") ? value.slice(6) : null;
      state.own.push({ holds: found.food ?? found.recipe, method, dryer, fresh: grams, started: start.value, typed: { weighings: [], tests: [], end: null } });
      food.value = "";
      fresh.value = "";
      keep();
      render();
      all("h2", runs).at(-1).focus();
    };
    return make("section", { className: "kit-run kit-change" }, make("h2", { id: "new" }, WORDS.newRun),
      make("form", { className: "kit-row", noValidate: true, onsubmit: follow }, foodLine, names,
        make("label", { className: "kit-field" }, make("span", {}, WORDS.how), how), freshLine, startLine,
        make("button", { type: "submit", className: "kit-button" }, WORDS.follow)), wrong);
  };

  // -- the file -----------------------------------------------------------------------------------

  const written = (run, typed) => {
    const last = [...run.weighings, ...typed.weighings].at(-1);
    return {
      ...(typed.weighings.length && { weighings: typed.weighings.map(([minutes, grams]) => ({ at: `${minutes} min`, mass: `${grams} g` })) }),
      ...(typed.tests.length && { tests: typed.tests }),
      ...(typed.end && last && { done: typed.end.on, dried: `${last[1]} g` }),
      ...(typed.end?.packs && { packs: typed.end.packs }),
    };
  };
  const file = () => {
    const runs = [];
    for (const [batch, typed] of Object.entries(state.of)) {
      const more = written(known.get(batch) ?? { weighings: [] }, typed);
      if (Object.keys(more).length) runs.push({ batch, ...more });
    }
    for (const own of state.own) {
      const run = ownRun(own);
      if (!run) continue;
      runs.push({
        [run.food ? "food" : "recipe"]: own.holds, ...(own.dryer ? { dryer: own.dryer } : { method: own.method }),
        started: own.started, fresh: `${own.fresh} g`, ...written(run, own.typed),
      });
    }
    return runs.length ? `${JSON.stringify({ format: "trip-kit-runs", runs }, null, 1)}\n` : "";
  };
  const named = () => `runs-${local(new Date()).slice(0, 10)}.txt`;
  const save = () => {
    const text = file();
    if (!text) { told.textContent = WORDS.nothingYet; return; }
    const href = URL.createObjectURL(new Blob([text], { type: "text/plain" }));
    make("a", { href, download: named() }).click();
    setTimeout(() => URL.revokeObjectURL(href), 60000);
    told.textContent = fill(WORDS.saved, { name: named() });
  };
  const send = async () => {
    const text = file();
    if (!text) { told.textContent = WORDS.nothingYet; return; }
    const files = [new File([text], named(), { type: "text/plain" })];
    try {
      if (navigator.canShare?.({ files })) await navigator.share({ files, title: document.title });
      else if (navigator.share) await navigator.share({ title: document.title, text });
      else {
        await navigator.clipboard.writeText(text);
        told.textContent = WORDS.copied;
      }
    } catch (error) {
      // Who closes the phone's own window has changed their mind; nothing went wrong.
      if (error.name !== "AbortError") told.textContent = WORDS.cannotSend;
    }
  };
  const [how, command] = [WORDS.sendHow.split("{command}"), make("code", {}, `tripkit log --from ${named()}`)];
  const sending = make("section", {}, make("h2", {}, WORDS.sendHead), make("p", {}, how[0], command, how[1] ?? ""),
    make("div", { className: "kit-row" }, button(WORDS.save, save), button(WORDS.sendFile, send)), told, notKept);

  // -- all of it ----------------------------------------------------------------------------------

  const gone = (batch) => make("p", {}, `${fill(WORDS.gone, { batch })} `,
    button(WORDS.forgetRun, () => { delete state.of[batch]; keep(); render(); }));
  const runs = make("div");
  const render = () => {
    const typed = ([, each]) => each.weighings.length || each.tests.length || each.end;
    runs.replaceChildren(
      ...data.runs.map((run, i) => card(run, typedOf(run.batch), `run-${i + 1}`)),
      ...state.own.flatMap((own, i) => {
        const run = ownRun(own);
        return run ? [card(run, own.typed, `new-${i + 1}`, () => { state.own.splice(state.own.indexOf(own), 1); keep(); render(); })] : [];
      }),
      ...Object.entries(state.of).filter(([batch]) => !known.has(batch)).filter(typed).map(([batch]) => gone(batch)),
    );
  };
  render();
  keep();
  // What stood in the log as of the build is told by the runs now.
  while (place.nextElementSibling && !place.nextElementSibling.matches("script")) place.nextElementSibling.remove();
  place.append(runs, begin(), sending);
};
