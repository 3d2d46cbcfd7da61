/* The curve through the weighings of a load, and when it will be dry: the same search as the
   build's (planning/stock/drying_run.py), with the same formulas and no copy of one.
   tests/vectors/drying_runs.json holds it to what the Python gives. */
const startFit = ({ formulas, fit }) => {
  const work = (id, values) => evaluate(formulas[id].expression, new Map(Object.entries({ ...formulas[id].constants, ...values })));
  const ratioAfter = (minutes, [logRate, exponent = 1]) =>
    work("drying.moisture_ratio", { duration_min: minutes, rate_per_min: Math.exp(logRate), exponent });
  const dot = (a, b) => a.reduce((sum, one, i) => sum + one * b[i], 0);
  const inverse = (m) => {
    if (m.length === 1) return [[1 / m[0][0]]];
    const [[a, b], [c, d]] = m;
    const all = a * d - b * c;
    return [[d / all, -b / all], [-c / all, a / all]];
  };
  const slope = (of, at, step = 1e-5) => (of(at + step) - of(at - step)) / (2 * step);

  /* Least squares by Levenberg and Marquardt, inside the bounds. */
  const leastSquares = (times, ratios, first) => {
    const misses = (at) => times.map((minutes, i) => ratioAfter(minutes, at) - ratios[i]);
    const slopes = (at) => at.map((_, k) => times.map((minutes) =>
      slope((value) => ratioAfter(minutes, at.map((one, i) => (i === k ? value : one))), at[k])));
    const inside = (value, k) => Math.min(Math.max(value, fit.bounds[0][k]), fit.bounds[1][k]);
    let at = first;
    let now = misses(at);
    let damp = 1e-3;
    let square;
    for (let tries = 0; tries < 300 && damp < 1e12; tries += 1) {
      const by = slopes(at);
      square = by.map((a) => by.map((b) => dot(a, b)));
      const damped = inverse(square.map((row, i) => row.map((one, j) => (i === j ? one * (1 + damp) : one))));
      const down = by.map((a) => -dot(a, now));
      const next = at.map((one, k) => inside(one + dot(damped[k], down), k));
      const then = misses(next);
      if (!(dot(then, then) <= dot(now, now))) { damp *= 10; continue; }
      const moved = Math.max(...next.map((one, k) => Math.abs(one - at[k])));
      [at, now, damp] = [next, then, damp / 10];
      if (moved < 1e-11) break;
    }
    const squares = dot(now, now);
    const free = times.length - at.length;
    const covariance = inverse(square).map((row) => row.map((one) => (one * squares) / free));
    // As many weighings as parameters tell nothing of their doubt.
    const told = free > 0 && covariance.every((row, i) => Number.isFinite(row[i]));
    const zero = at.map(() => at.map(() => 0));
    return { at, squares, covariance: told ? covariance : zero };
  };

  const fitted = (fresh, water, weighings) => {
    const held = weighings.filter(([, mass]) => mass < fresh).map(([minutes, mass]) =>
      [minutes, work("drying.residual_share", { fresh_g: fresh, dried_g: mass, water_share: water })])
      .filter(([, share]) => share > 0);
    if (held.length < fit.least_weighings) return null;
    const times = held.map(([minutes]) => minutes);
    const ratios = held.map(([, share]) =>
      work("drying_curve.moisture_ratio_of", { water_share: share, start_share: water, equilibrium_share: 0 }));
    const start = Math.log(-Math.log(ratios.at(-1)) / times.at(-1));
    if (!Number.isFinite(start)) return null;
    const lewis = leastSquares(times, ratios, [start]);
    if (times.length < fit.least_for_page) return lewis;
    const page = leastSquares(times, ratios, [start, 1]);
    return page.squares < fit.page_must_halve * lewis.squares ? page : lewis;
  };

  const minutesTo = (ratio, [logRate, exponent = 1]) =>
    work("drying_curve.minutes_to_ratio", { moisture_ratio: ratio, rate_per_min: Math.exp(logRate), exponent });
  const ratioAt = (limit, water) =>
    work("drying_curve.moisture_ratio_of", { water_share: limit, start_share: water, equilibrium_share: 0 });
  const errorOfFit = (ratio, { at, covariance }) => {
    const by = at.map((_, k) => slope((value) => minutesTo(ratio, at.map((one, i) => (i === k ? value : one))), at[k]));
    return Math.sqrt(Math.max(dot(by, covariance.map((row) => dot(row, by))), 0));
  };
  const errorOfTable = ({ fresh, water, spread, limit, weighings }, dryAfter) => {
    const ends = [-1, 1].map((way) => Math.min(water + way * fit.spreads * spread, fit.most_water_share))
      .filter((share) => share > limit)
      .map((share) => [share, fitted(fresh, share, weighings)])
      .filter(([, found]) => found)
      .map(([share, found]) => minutesTo(ratioAt(limit, share), found.at));
    if (!ends.length) return 0;
    const off = ends.length === 2 ? Math.abs(ends[1] - ends[0]) / 2 : Math.abs(ends[0] - dryAfter);
    return off / fit.standard_errors;
  };

  /* What the weighings of a load forecast; null where there are too few, or they make no curve. */
  const forecast = (load) => {
    const { fresh, water, limit, weighings } = load;
    try {
      const found = fitted(fresh, water, weighings);
      if (!found) return null;
      const ratio = ratioAt(limit, water);
      const dryAfter = minutesTo(ratio, found.at);
      if (dryAfter > fit.longest_min) return { never: true };
      const off = fit.standard_errors * Math.hypot(errorOfFit(ratio, found), errorOfTable(load, dryAfter));
      const [logRate, exponent = 1] = found.at;
      const curve = (minutes) => work("drying_curve.page_mass_g", {
        duration_min: minutes, start_g: fresh, start_share: water,
        rate_per_min: Math.exp(logRate), exponent, equilibrium_share: 0,
      });
      const earliest = Math.max(dryAfter - off, 0);
      return {
        model: found.at.length > 1 ? "page" : "lewis", dryAfter, earliest, latest: dryAfter + off, curve,
        look: work("drying_curve.look_next_min", { last_min: weighings.at(-1)[0], earliest_min: earliest, likely_min: dryAfter }),
      };
    } catch (error) {
      if (error instanceof ExpressionError) return null;
      throw error;
    }
  };

  /* How dry a load is by its last weight: what is left, to go, and the verdict with its doubt. */
  const judged = ({ fresh, water, listed, spread, limit, least, weighings, tests, fruit, never }) => {
    const now = weighings.length ? weighings.at(-1)[1] : fresh;
    const off = (spreads) => (now >= fresh ? listed : Math.max(least, work("dryness.residual_off_share",
      { fresh_g: fresh, dried_g: now, water_share: listed, spread_share: spread, spreads })));
    const [low, high] = [off(-fit.spreads), off(fit.spreads)];
    const likely = now >= fresh ? water
      : Math.max(least, work("drying.residual_share", { fresh_g: fresh, dried_g: now, water_share: water }));
    const target = work("drying.dried_mass_g", { fresh_g: fresh, water_share: water, residual_share: limit });
    const weight = work("dryness.dry_by_weight", { low_share: low, high_share: high, limit_share: limit });
    const proven = tests.some((one) => one !== "jar" || fruit);
    const verdict = never ? "discard" : weight < 0 ? "not-dry" : weight > 0 || proven ? "dry" : "undecided";
    return { now, low, high, likely, target, toGo: Math.max(now - target, 0), verdict };
  };
  return { forecast, judged };
};
