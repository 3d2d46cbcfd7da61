/* Figures as text, rounded and written as the build does it; tests/vectors/scaling.json holds the
   two together. */
const OUNCE_G = 28.349523125;
const FOOT_M = .3048;
const SHOWN = {
  "g metric": [[10, "g", 1, 1], [999.5, "g", 1, 0], [9995, "kg", 1000, 2], [Infinity, "kg", 1000, 1]],
  "g us": [[453.592, "oz", OUNCE_G, 1], [4533.6, "lb", 453.59237, 2], [Infinity, "lb", 453.59237, 1]],
  "ml metric": [[999.5, "ml", 1, 0], [9995, "l", 1000, 2], [Infinity, "l", 1000, 1]],
  "ml us": [[14.7, "tsp", 4.92892159375, 1], [236.5, "fl oz", 29.5735295625, 1],
    [3785.4, "cups", 236.5882365, 1], [37835, "gal", 3785.411784, 2], [Infinity, "gal", 3785.411784, 1]],
  "m metric": [[Infinity, "m", 1, 0]],
  "m us": [[Infinity, "ft", FOOT_M, 0]],
};
const digits = (value, decimals) => {
  const [whole, part = ""] = rounded(value, decimals).toFixed(decimals).split(".");
  const rest = part.replace(/0+$/, "");
  const text = whole.replace(/\B(?=(\d{3})+$)/g, SAID.group) + (rest && SAID.decimal + rest);
  return text === "-0" ? "0" : text.replace("-", "−");
};
/* Teaspoons as a set of spoons measures them. */
const inQuarters = (n) => (Math.floor(n / 4) || "") + ["", "¼", "½", "¾"][n % 4] || "0";
const spoons = (n) => rounded(n * 8) === 1 ? "⅛" : inQuarters(rounded(n * 4));
const quantity = (value, kind, units) => {
  const [, word, factor, decimals] = SHOWN[`${kind} ${units}`].find(([below]) => Math.abs(value) < below);
  const number = word === "tsp" ? spoons(value / factor) : digits(value / factor, decimals);
  return number + NBSP + (word === "cups" && number === "1" ? SAID.cup : SAID[word] ?? word);
};
const temperature = (celsius, units) =>
  units === "us" ? `${digits(celsius * 1.8 + 32, 0)}${NBSP}°F` : `${digits(celsius, 0)}${NBSP}°C`;
/* Mugs stand beside millilitres only where they pour the same to a twentieth; "" where not. */
const mugs = (value, mug) => {
  const quarters = rounded(value / mug * 4);
  if (Math.abs(quarters * mug / 4 - value) > .05 * value + 1e-9) return "";
  return inQuarters(quarters) + NBSP + WORDS.mugs(!(quarters > 0 && quarters <= 4));
};

/* Text of an element that tells a figure, for another value of it; what stands around it goes
   where there is nothing to show, such as less than a spoon measures. */
const shownAs = (value, { before = "", after = "", ...how }) => {
  const text = quantityAs(value, how);
  return text && !text.startsWith(`0${NBSP}${SAID.tsp}`) ? before + text + after : "";
};
const quantityAs = (value, { kind, units = "metric", mug, step }) => {
  if (kind === "mugs") return mugs(value, Number(mug));
  if (kind === "potfuls") return WORDS.potfuls(value);
  if (kind === "min") return duration(value);
  if (kind === "celsius") return temperature(value, units);
  if (kind === "whole") return digits(value, 0);
  if (kind === "count") return digits(rounded(value / (Number(step) || 1)) * (Number(step) || 1), 2);
  return quantity(value, kind, units);
};
