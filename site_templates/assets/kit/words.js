/* What the scripts say: SAID comes from the catalogue of the kit's language, and each script of a
   page brings its own words. */
const fill = (text, blanks) => text.replace(/\{(\w+)\}/g, (_, name) => blanks[name]);
const counted = ([one, many], n) => fill(n === 1 ? one : many, { n });
const WORDS = {
  __proto__: SAID,
  stepOf: (n, all) => fill(SAID.stepOf, { n, all }),
  then: (step) => fill(SAID.then, { step }),
  overFor: (time) => fill(SAID.overFor, { time }),
  start: (time) => fill(SAID.start, { time }),
  guestsToo: (n) => counted(SAID.guestsToo, n),
  people: (n) => counted(SAID.people, n),
  potfuls: (n) => counted(SAID.potfuls, n),
  heightWrong: (low, high) => fill(SAID.heightWrong, { low, high }),
  changed: (who, height) => fill(height ? SAID.changedHigh : SAID.changed, { who, height }),
  and: (names) => names.length < 2 ? names.join("")
    : fill(SAID.and, { some: names.slice(0, -1).join(", "), last: names.at(-1) }),
  mugs: (many) => (many ? SAID.mugs : SAID.mug),
  before: (time, dayBefore) => fill(dayBefore ? SAID.dayBefore : SAID.before, { time }),
};
