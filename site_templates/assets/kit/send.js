/* A list as text for somebody else: the phone's own way to send, else the clipboard. */
const startSending = () => {
  const lists = all("ul.send");
  const first = lists[0];
  if (!first) return;
  const text = () => lists.map((list) => {
    const title = headingBefore(list);
    const lines = all("li", list).filter((line) => !line.querySelector("input").checked)
      .map((line) => `- ${line.textContent.replace(/\s+/g, " ").trim()}`);
    return lines.length ? [title?.textContent.trim() ?? "", ...lines].join("\n") : "";
  }).filter(Boolean).join("\n\n");
  const told = make("p", { className: "kit-sent", role: "status" });
  const send = button(WORDS.sendList, async () => {
    const words = text();
    try {
      if (navigator.share) await navigator.share({ title: document.title, text: words });
      else {
        await navigator.clipboard.writeText(words);
        told.textContent = WORDS.copied;
      }
    } catch (error) {
      // Who closes the phone's own window has changed their mind; nothing went wrong.
      if (error.name !== "AbortError") told.textContent = WORDS.notCopied;
    }
  });
  (headingBefore(first) ?? first).before(make("div", { className: "kit-row" }, send), told);
};
const headingBefore = (list) => {
  let before = list.previousElementSibling;
  while (before && !before.matches("h2")) before = before.previousElementSibling;
  return before;
};
