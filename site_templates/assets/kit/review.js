/* The sheet for afterwards: what one types stays on the phone, and goes out as a file that
   `tripkit review` reads. Without it the page prints as a form. */
const startReview = () => {
  const form = document.querySelector("form.review");
  if (!form) return;
  const trip = form.dataset.trip;
  const blanks = [...form.elements].filter((one) => one.name);
  const nameOf = (blank) => `${blank.name} ${blank.dataset.of ?? ""}`;
  const saved = kept.get("review") ?? {};
  for (const blank of blanks) blank.value = saved[nameOf(blank)] ?? "";
  form.addEventListener("input", () => {
    const told = blanks.filter((blank) => blank.value.trim()).map((blank) => [nameOf(blank), blank.value]);
    kept.set("review", told.length ? Object.fromEntries(told) : null);
  });
  form.addEventListener("submit", (event) => event.preventDefault());

  // A text in JSON's quotes is one in YAML's.
  const quoted = (text) => JSON.stringify(text);
  const isNumber = (text) => /^\d+([.,]\d+)?$/.test(text);
  /* A quantity with its unit, a count as a number; what is neither is told as it was typed. */
  const worth = ({ value, dataset: { unit } }) => {
    const text = value.trim();
    if (!isNumber(text)) return quoted(text);
    return unit ? quoted(`${text} ${unit}`) : text.replace(",", ".");
  };
  const LISTS = {
    water: (blank) => `    - {day: ${blank.dataset.of}, used: ${worth(blank)}}`,
    "left-share": (blank) => `    - {recipe: ${quoted(blank.dataset.of)}, share: ${worth(blank)}}`,
    "left-mass": (blank) => `    - {food: ${quoted(blank.dataset.of)}, mass: ${worth(blank)}}`,
    took: (blank) => `    - {recipe: ${quoted(blank.dataset.of)}, minutes: ${worth(blank)}}`,
    marks: (blank) => `    ${quoted(blank.dataset.of)}: ${worth(blank)}`,
    back: (blank) => `    ${quoted(blank.dataset.of)}: ${worth(blank)}`,
  };
  const written = () => {
    const keys = new Map();
    for (const blank of blanks.filter((one) => one.value.trim())) {
      const key = blank.name.replace(/-.*/, "");
      if (LISTS[blank.name]) keys.set(key, [...(keys.get(key) ?? []), LISTS[blank.name](blank)]);
      else keys.set(key, blank.name === "notes" ? quoted(blank.value.trim()) : worth(blank));
    }
    const lines = [...keys].map(([key, told]) =>
      Array.isArray(told) ? `  ${key}:\n${told.join("\n")}` : `  ${key}: ${told}`);
    return `trip: ${trip}\nreview:${lines.length ? "" : " {}"}\n${lines.map((line) => `${line}\n`).join("")}`;
  };
  const give = form.querySelector(".review-give");
  const status = give.querySelector("[role=status]");
  give.querySelector("button").addEventListener("click", () => {
    const file = new Blob([written()], { type: "text/yaml" });
    const link = document.createElement("a");
    link.href = URL.createObjectURL(file);
    link.download = `${trip}-review.yaml`;
    link.click();
    status.textContent = status.dataset.done;
  });
  give.hidden = false;
};
