/* Lists of a page that belong together: one row of buttons for all, and all of it as text for
   somebody else, by the phone's own way to send, else by the clipboard. */
const startSending = () => {
  const lists = all("ul.send");
  if (!lists.length) return;
  const heading = headingBefore(lists[0]);
  for (const list of lists) {
    while (list.previousElementSibling?.matches(".kit-tools, .kit-awake")) list.previousElementSibling.remove();
  }
  const text = () => lists.map((list) => {
    const lines = all("li", list).filter((line) => !line.querySelector("input").checked)
      .map((line) => `- ${line.textContent.replace(/\s+/g, " ").trim()}`);
    return lines.length ? [headingBefore(list)?.textContent.trim() ?? "", ...lines].join("\n") : "";
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
  const [awake, awakeTold] = awakeTools();
  const untick = untickButton(all("ul.send input"));
  const row = [make("div", { className: "kit-tools" }, send, untick, awake), awakeTold, told];
  const room = document.querySelector(".send-tools");
  if (room) room.append(...row);
  else (heading ?? lists[0]).before(...row);
};
const headingBefore = (list) => {
  let before = list.previousElementSibling;
  while (before && !before.matches("h2, h3")) before = before.previousElementSibling;
  return before;
};
