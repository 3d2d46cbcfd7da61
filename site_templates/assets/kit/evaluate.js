/* The arithmetic in which the build prints formulas (builder/formulas/expression.py), and the walk
   through the figures of kit.json. Nothing here is run as a script: an expression is read into a
   tree and worked out. tests/vectors/expressions.json holds it to what the Python gives. */
const TOKEN = /\s*(?:(\d+\.?\d*(?:[eE][+-]?\d+)?|\.\d+)|([a-z][a-z0-9_]*)|(<=|>=|[-+*/^(),<>=]))/y;
const BINDS = { "<": 1, "<=": 1, ">": 1, ">=": 1, "=": 1, "+": 2, "-": 2, "*": 3, "/": 3, "^": 5 };
const MINUS_BINDS = 4;
class ExpressionError extends Error {}
const fail = (why) => { throw new ExpressionError(why); };
const real = (value) => (Number.isFinite(value) ? value : fail("no value here"));
const OF_TWO = new Map(Object.entries({
  "+": (a, b) => a + b,
  "-": (a, b) => a - b,
  "*": (a, b) => a * b,
  "/": (a, b) => (b === 0 ? fail("divided by 0") : a / b),
  "^": (a, b) => real(a ** b),
  "<": (a, b) => Number(a < b),
  "<=": (a, b) => Number(a <= b),
  ">": (a, b) => Number(a > b),
  ">=": (a, b) => Number(a >= b),
  "=": (a, b) => Number(a === b),
}));
const OF_ONE = new Map(Object.entries({
  "-": (a) => -a,
  abs: Math.abs,
  ...Object.fromEntries(Object.entries({
    ceil: Math.ceil, floor: Math.floor, exp: Math.exp, ln: Math.log, log10: Math.log10,
    sqrt: Math.sqrt, sin: Math.sin, atan: Math.atan,
  }).map(([name, work]) => [name, (a) => real(work(a))])),
}));
const OVER_LISTS = new Map(Object.entries({
  sum: (each) => {
    let [sum, lost] = [0, 0];
    for (const one of each) {
      const next = sum + one;
      lost += Math.abs(sum) >= Math.abs(one) ? sum - next + one : one - next + sum;
      sum = next;
    }
    return sum + lost;
  },
  min: (each) => real(Math.min(...each)),
  max: (each) => real(Math.max(...each)),
}));

const read = (expression) => {
  let at = 0;
  let kind = "";
  let text = "";
  const step = () => {
    TOKEN.lastIndex = at;
    const found = TOKEN.exec(expression);
    if (!found && expression.slice(at).trim()) fail("no such sign");
    at = found ? TOKEN.lastIndex : at;
    kind = !found ? "end" : found[1] ? "number" : found[2] ? "name" : "sign";
    text = found ? found[1] ?? found[2] ?? found[3] : "";
  };
  const expect = (sign) => (text === sign ? step() : fail(`${sign} is missing`));
  const term = (floor) => {
    let left = first();
    while (kind === "sign" && (BINDS[text] ?? 0) > floor) {
      const sign = text;
      step();
      // A power binds from the right: 2^3^2 is 2^9.
      left = { do: sign, of: [left, term(sign === "^" ? BINDS[sign] - 1 : BINDS[sign])] };
    }
    return left;
  };
  const first = () => {
    const [kindHere, here] = [kind, text];
    step();
    if (kindHere === "number") return { number: Number(here) };
    if (here === "-") return { do: "-", of: [term(MINUS_BINDS)] };
    if (here === "(") {
      const inner = term(0);
      expect(")");
      return inner;
    }
    if (kindHere !== "name") fail("a value is missing");
    if (text !== "(") return { name: here };
    if (here !== "if" && !OF_ONE.has(here) && !OVER_LISTS.has(here)) fail(`${here} is no function`);
    const of = [];
    do {
      step();
      of.push(term(0));
    } while (text === ",");
    expect(")");
    return { do: here, of };
  };
  step();
  const tree = term(0);
  return kind === "end" ? tree : fail(`${text} is one too many`);
};
/* Element by element; a number beside a list goes with each of its elements. */
const each = (work, parts) => {
  const lengths = new Set(parts.filter(Array.isArray).map((part) => part.length));
  if (!lengths.size) return work(...parts);
  if (lengths.size > 1) fail("lists differ in length");
  return Array.from({ length: [...lengths][0] }, (_, i) => work(...parts.map((part) => (Array.isArray(part) ? part[i] : part))));
};
const worth = (tree, values) => {
  if (tree.do === undefined) return tree.number ?? values.get(tree.name) ?? fail(`${tree.name} has no value`);
  if (tree.do === "if") {
    if (tree.of.length !== 3) fail("if takes three values");
    const asked = worth(tree.of[0], values);
    if (!Array.isArray(asked)) return worth(tree.of[asked ? 1 : 2], values);
    return each((a, x, y) => (a ? x : y), [asked, worth(tree.of[1], values), worth(tree.of[2], values)]);
  }
  const parts = tree.of.map((part) => worth(part, values));
  const over = OVER_LISTS.get(tree.do);
  if (over) return parts.length === 1 ? over([parts[0]].flat()) : each((...row) => over(row), parts);
  const work = [OF_ONE, OF_TWO][parts.length - 1]?.get(tree.do);
  return work ? each(work, parts) : fail(`${tree.do} takes other values`);
};
const trees = new Map();
/* The value of an expression; `values` is a map of its names to numbers or lists of them. */
const evaluate = (expression, values) => {
  if (!trees.has(expression)) trees.set(expression, read(expression));
  return worth(trees.get(expression), values);
};

/* What a figure comes to, by its id, where the leaves at some places have changed: each is worked
   out once. `moved` says that it rests on one of them, `turned` that planning would choose
   otherwise there: then it has no value. What a figure comes to as planned may be left out. */
const figuresWhere = ({ formulas, figures }, changed) => {
  const known = new Map();
  const leaf = ({ value, place }) => (changed.has(place) ? { value: changed.get(place), moved: true } : { value });
  const figure = (id) => {
    if (!known.has(id)) known.set(id, worked(figures[id]));
    return known.get(id);
  };
  const worked = ({ formula, inputs, value, place, guards = [] }) => {
    if (formula === undefined) return leaf({ value, place });
    const choices = guards.map(figure);
    const met = [...choices];
    const taken = (one) => { met.push(one); return one.value; };
    const given = (one) => {
      if (one.figures) return one.figures.map((id) => taken(figure(id)));
      return taken(one.figure === undefined ? leaf(one) : figure(one.figure));
    };
    const { expression, constants = {} } = formulas[formula];
    const values = new Map(Object.entries(constants));
    for (const [name, one] of Object.entries(inputs)) values.set(name, given(one));
    const moved = met.some((one) => one.moved);
    if (!moved && value !== undefined) return { value };
    const turned = { moved: true, turned: true };
    if (met.some((one) => one.turned) || choices.some((one) => one.moved && one.value !== 1)) return turned;
    try { return { value: evaluate(expression, values), moved }; } catch { return turned; }
  };
  return figure;
};
