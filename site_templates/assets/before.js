/* Before the first paint: room for what the script puts in, so that nothing jumps. */
document.documentElement.classList.replace("no-js", "js");
document.documentElement.classList.add("kit-js");
/* What the theme keeps, it keeps apart for each kit: by the folder that holds this one's assets.
   The names are those that the theme's own scripts call. */
var __md_scope = new URL("..", document.currentScript.src);
var __md_hash = (text) => [...text].reduce((hash, letter) => (hash << 5) - hash + letter.charCodeAt(0), 0);
var __md_get = (key, store = localStorage, scope = __md_scope) =>
  JSON.parse(store.getItem(scope.pathname + "." + key));
var __md_set = (key, value, store = localStorage, scope = __md_scope) => {
  try {
    store.setItem(scope.pathname + "." + key, JSON.stringify(value));
  } catch {
    /* Storage is full or shut: the choice holds for this page only. */
  }
};
/* What its script is told is the same on all pages, but for where this kit lies. */
var __kit_settings = (told) => {
  const base = __md_scope.href;
  document.head.append(Object.assign(document.createElement("script"), {
    id: "__config",
    type: "application/json",
    textContent: JSON.stringify({ ...told, base, search: base + told.search }),
  }));
};
