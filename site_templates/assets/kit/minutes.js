/* Minutes as the build writes them. */
const NBSP = "\u00a0";
const rounded = (value, decimals = 0) => Math.floor(value * 10 ** decimals + .5 + 1e-9) / 10 ** decimals;
const duration = (minutes) => {
  const seconds = rounded(minutes * 60);
  if (seconds > 0 && seconds < 60) return `${seconds}${NBSP}s`;
  const whole = rounded(minutes);
  const [h, rest] = [Math.floor(whole / 60), whole % 60];
  if (!h) return `${rest}${NBSP}min`;
  return rest ? `${h}${NBSP}${SAID.h} ${rest}${NBSP}min` : `${h}${NBSP}${SAID.h}`;
};
