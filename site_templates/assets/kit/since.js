/* What changed since the kit that one has: told until one says that it was seen. */
const startSince = () => {
  const box = document.querySelector("[data-since]");
  if (!box) return;
  box.hidden = kept.get("since") === box.dataset.since;
  const seen = box.querySelector("button");
  seen.hidden = false;
  seen.addEventListener("click", () => {
    kept.set("since", box.dataset.since);
    box.hidden = true;
    document.querySelector("h1").tabIndex = -1;
    document.querySelector("h1").focus();
  });
};
