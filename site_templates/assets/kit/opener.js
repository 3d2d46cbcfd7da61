/* The box of the search. What it looks through is large: it comes with the first touch. */
const startSearch = () => {
  const field = document.querySelector(".md-search__input");
  const toggle = document.getElementById("__search");
  if (!field || !toggle) return;
  const box = field.closest(".md-search");
  const told = box.querySelector(".md-search-result__meta");
  told.setAttribute("role", "status");
  let asked = false;
  const fetchSearch = () => {
    if (asked) return;
    asked = true;
    for (const name of ["search/search_index.js", "assets/search.js"]) {
      document.body.append(make("script", {
        src: new URL(name, home).href,
        async: false,
        onerror: () => { told.textContent = WORDS.searchFailed; asked = false; },
      }));
    }
  };
  const open = (on) => {
    toggle.checked = on;
    if (on) fetchSearch();
    else field.blur();
  };
  field.addEventListener("focus", () => open(true));
  toggle.addEventListener("change", () => { if (toggle.checked) field.focus(); });
  box.addEventListener("focusout", ({ relatedTarget: next }) => {
    if (next && !box.contains(next)) open(false);
  });
  addEventListener("keydown", (event) => {
    if (event.key === "Escape" && toggle.checked) open(false);
    const typing = event.target.closest("input, select, textarea") || event.ctrlKey || event.metaKey || event.altKey;
    if (event.key !== "/" || typing) return;
    event.preventDefault();
    field.focus();
  });
};
