/* A table wider than the screen can be reached and scrolled by keyboard. */
const startTables = () => {
  const boxes = all(".wide");
  const look = () => {
    for (const box of boxes) {
      const wide = box.scrollWidth > box.clientWidth;
      const label = box.querySelector("caption")?.textContent || WORDS.table;
      for (const [name, value] of [["tabindex", "0"], ["role", "group"], ["aria-label", label]]) {
        if (wide) box.setAttribute(name, value);
        else box.removeAttribute(name);
      }
    }
  };
  look();
  addEventListener("resize", look);
};
