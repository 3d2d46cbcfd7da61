/* Amounts, potfuls, presses and minutes for another party or another height. Everything here is
   rounded and worked out as the build does it; tests/vectors/scaling.json holds the two together. */
const SHOWN = {
  "g metric": [[10, "g", 1, 1], [999.5, "g", 1, 0], [Infinity, "kg", 1000, 2]],
  "g us": [[453.592, "oz", 28.349523125, 1], [Infinity, "lb", 453.59237, 2]],
  "ml metric": [[999.5, "ml", 1, 0], [Infinity, "l", 1000, 2]],
  "ml us": [[14.7, "tsp", 4.92892159375, 1], [236.5, "fl oz", 29.5735295625, 1],
    [3785.4, "cups", 236.5882365, 1], [Infinity, "gal", 3785.411784, 2]],
  "m metric": [[Infinity, "m", 1, 0]],
  "m us": [[Infinity, "ft", .3048, 0]],
};
const digits = (value, decimals) => {
  const [whole, part = ""] = rounded(value, decimals).toFixed(decimals).split(".");
  const rest = part.replace(/0+$/, "");
  const text = whole.replace(/\B(?=(\d{3})+$)/g, SAID.group) + (rest && SAID.decimal + rest);
  return text === "-0" ? "0" : text.replace("-", "−");
};
const quantity = (value, kind, units) => {
  const [, word, factor, decimals] = SHOWN[`${kind} ${units}`].find(([below]) => Math.abs(value) < below);
  const number = digits(value / factor, decimals);
  return number + NBSP + (word === "cups" && number === "1" ? SAID.cup : SAID[word] ?? word);
};
const temperature = (celsius, units) =>
  units === "us" ? `${digits(celsius * 1.8 + 32, 0)}${NBSP}°F` : `${digits(celsius, 0)}${NBSP}°C`;
const mugs = (value, mug) => {
  const quarters = value > 0 ? Math.max(1, rounded(value / mug * 4)) : 0;
  const number = (Math.floor(quarters / 4) || "") + ["", "¼", "½", "¾"][quarters % 4];
  return (number || "0") + NBSP + WORDS.mugs(!(quarters > 0 && quarters <= 4));
};
const wholes = (value) => Math.max(0, Math.ceil(value - 1e-9));

/* Text of an element with class "scales", for a value. */
const scaledText = (value, data) => {
  if (data.kind === "mugs") return mugs(value, Number(data.mug));
  if (data.kind === "potfuls") return WORDS.potfuls(Math.max(1, wholes(value)));
  if (data.kind === "count") {
    const step = Number(data.step) || 1;
    return digits(rounded(value / step) * step, 2);
  }
  return quantity(value, data.kind, data.units || "metric");
};

/* ISO 2533 air, IAPWS-IF97 boiling point, and the factor on the minutes of plant food. */
const pressureHpa = (altitude) =>
  1013.25 * (1 - .0065 * altitude / 288.15) ** (9.80665 * 28.96442 / (8314.32 * .0065));
const boilingPoint = (hpa) => {
  const b = (hpa / 1e4) ** .25;
  const e = b * b - .17073846940092e2 * b + .14915108613530e2;
  const f = .11670521452767e4 * b * b + .12020824702470e5 * b - .48232657361591e4;
  const g = -.72421316703206e6 * b * b - .32325550322333e7 * b + .40511340542057e6;
  const d = 2 * g / (-f - Math.sqrt(f * f - 4 * e * g));
  const n10 = .65017534844798e3;
  return (n10 + d - Math.sqrt((n10 + d) ** 2 - 4 * (-.23855557567849 + n10 * d))) / 2 - 273.15;
};
const timeFactor = (boils) => 10 ** ((99.97 - boils) / 33);

/* The pot with the fewest potfuls, then the lightest; what boils alone takes the lightest that fits. */
const potFor = (volume, data) => {
  const choice = data.pots.map((pot) => ({ pot, potfuls: wholes(volume / pot.room_ml) }));
  if (!choice.length || volume <= 0) return { pot: null, potfuls: 0 };
  const fits = data.mug ? choice.filter(({ potfuls }) => potfuls <= 1) : [];
  return (fits.length ? fits : choice).reduce((best, one) =>
    one.potfuls < best.potfuls || (one.potfuls === best.potfuls && one.pot.mass_g < best.pot.mass_g) ? one : best);
};

/* `data` is data-cooking of a recipe, `share` the eaters over the planned ones. */
const mealFor = (data, share, altitude) => {
  const boils = boilingPoint(pressureHpa(altitude));
  const factor = timeFactor(boils);
  const water = data.boiled_ml * share;
  const { pot, potfuls } = potFor(data.most_ml * share, data);
  const warmed = boils - data.water_c;
  const toBoil = data.snow_c === null ? 4.186 * warmed : 2.09 * (0 - data.snow_c) + 333.55 + 4.186 * boils;
  let heat = water / 1000 * toBoil + .4 * data.boiled_food_g * share / 1000 * 4.186 * warmed;
  if (pot && data.boils) heat += potfuls * pot.kj_k * warmed;
  const steps = data.steps.map(([minutes, byHeight]) => minutes * (byHeight ? factor : 1));
  const presses = data.presses.map(([pieces]) => wholes(pieces * share / data.at_once));
  const pressing = presses.reduce((sum, count, i) => sum + count * (2 * data.presses[i][1] + 1), 0);
  /* A fire reaches round a fuller pot; each potful is boiled, simmered and fried by itself. */
  const turns = Math.max(potfuls, 1);
  const reach = data.fire ? Math.max(1, data.most_ml * share / turns / 1000) ** (2 / 3) : 1;
  const heating = data.kj_min === null ? 0 : heat / (data.kj_min * reach);
  const minutes = heating + steps.reduce((sum, each, i) => sum + each * (data.steps[i][2] ? turns : 1), 0) + pressing;
  return { boils, factor, potfuls, presses, steps, minutes };
};
