/* A time of day such as 18:30 in minutes, and back; those of the day before are below nothing. */
const minutesOf = (time) => {
  const [h, m] = time.split(":").map(Number);
  return h * 60 + m;
};
const clockOf = (minutes) => {
  const at = ((minutes % 1440) + 1440) % 1440;
  return `${two(Math.floor(at / 60))}:${two(at % 60)}`;
};
