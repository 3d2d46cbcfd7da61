/* Search in the words of all pages: each word that one types stands in what is found. */
const MOST_FOUND = 40;
const AROUND = 60; // letters told before what was found, and twice as many behind it
const plain = (text) => text.toLowerCase().normalize("NFD").replace(/\p{M}/gu, "");
const startFinding = () => {
  const field = document.querySelector(".md-search__input");
  const told = document.querySelector(".md-search-result__meta");
  const list = document.querySelector(".md-search-result__list");
  const pages = new Map(SEARCHED.filter(([address]) => !address.includes("#")));
  const places = SEARCHED.map(([address, part, text]) => {
    const page = pages.get(address.split("#")[0]) ?? part;
    const title = page === part ? page : `${page}: ${part}`;
    return { address, title, text, inTitle: ` ${plain(title)}`, inText: ` ${plain(text)}` };
  });
  /* A word at the beginning of another counts more than one inside it, one of a heading more still. */
  const weigh = ({ inTitle, inText }, word) =>
    (starts(inTitle, word) ? 12 : inTitle.includes(word) ? 4 : 0) + (starts(inText, word) ? 3 : inText.includes(word) ? 1 : 0);
  const starts = (text, word) => {
    for (let at = text.indexOf(word); at > 0; at = text.indexOf(word, at + 1)) {
      if (!/[\p{L}\p{N}]/u.test(text[at - 1])) return true;
    }
    return false;
  };
  const find = (words) => places
    .map((place) => ({ place, weights: words.map((word) => weigh(place, word)) }))
    .filter(({ weights }) => weights.every(Boolean))
    .map(({ place, weights }) => ({ place, weight: weights.reduce((a, b) => a + b) }))
    .sort((a, b) => b.weight - a.weight)
    .map(({ place }) => place);
  const marked = (text, words) => {
    const folded = plain(text);
    // Letters that fold to more or fewer would put the marks beside their words.
    if (folded.length !== text.length) return [text];
    const parts = [];
    let at = 0;
    while (at < text.length) {
      const hits = words.map((word) => [folded.indexOf(word, at), word.length]).filter(([found]) => found >= 0);
      if (!hits.length) break;
      const [from, length] = hits.sort((a, b) => a[0] - b[0] || b[1] - a[1])[0];
      parts.push(text.slice(at, from), make("mark", {}, text.slice(from, from + length)));
      at = from + length;
    }
    return [...parts, text.slice(at)];
  };
  const teaser = ({ text, inText }, words) => {
    const first = Math.min(...words.map((word) => inText.indexOf(word)).filter((at) => at >= 0).concat(text.length));
    const from = first >= text.length || first < AROUND ? 0 : text.lastIndexOf(" ", first - AROUND) + 1;
    const shown = text.slice(from, from + 3 * AROUND);
    return `${from ? "… " : ""}${shown}${from + shown.length < text.length ? " …" : ""}`;
  };
  const look = () => {
    const words = plain(field.value).split(/[^\p{L}\p{N}]+/u).filter(Boolean);
    const found = words.length ? find(words) : [];
    told.textContent = !words.length ? WORDS.searchHow : found.length ? counted(WORDS.found, found.length) : WORDS.foundNone;
    list.replaceChildren(...found.slice(0, MOST_FOUND).map((place) =>
      make("li", { className: "md-search-result__item" },
        make("a", { className: "md-search-result__link", href: new URL(place.address, home).href },
          make("strong", {}, ...marked(place.title, words)), make("span", {}, ...marked(teaser(place, words), words))))));
  };
  field.addEventListener("input", look);
  field.form.addEventListener("reset", () => { setTimeout(look); field.focus(); });
  field.form.addEventListener("submit", (event) => {
    event.preventDefault();
    list.querySelector("a")?.click();
  });
  field.closest(".md-search").addEventListener("keydown", (event) => {
    const step = { ArrowDown: 1, ArrowUp: -1 }[event.key];
    if (!step) return;
    event.preventDefault();
    const stops = [field, ...all("a", list)];
    stops[Math.min(Math.max(stops.indexOf(document.activeElement) + step, 0), stops.length - 1)].focus();
  });
  look();
};
