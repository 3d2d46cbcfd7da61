"use strict";
/* Keeps tick-offs where the viewer allows it, and lets keys scroll a wide table; the page needs
   none of this. */
(() => {
  const name = `trip-kit ${document.querySelector('meta[name="kit"]').content} pocket`;
  const boxes = [...document.querySelectorAll('.steps input[type="checkbox"], input.tick')];
  const words = (box, i) => `${i} ${(box.closest("label") || box.parentElement).textContent.replace(/\s+/g, " ").trim()}`;
  const show = (box) => box.closest("li")?.classList.toggle("done", box.checked);
  for (const box of document.querySelectorAll(".wide")) {
    if (box.scrollWidth > box.clientWidth) box.tabIndex = 0;
  }
  let before = [];
  try { before = JSON.parse(localStorage.getItem(name)) || []; } catch { /* forgotten */ }
  boxes.forEach((box, i) => {
    box.checked = before.includes(words(box, i));
    show(box);
    box.addEventListener("change", () => {
      show(box);
      const ticked = boxes.map((one, j) => one.checked && words(one, j)).filter(Boolean);
      try { localStorage.setItem(name, JSON.stringify(ticked)); } catch { /* forgotten */ }
    });
  });
})();
