"use strict";
/* Which labels to print, and where on a sheet that is partly used. Without it, all print from the first. */
(() => {
  const form = document.querySelector(".choose");
  const main = document.querySelector("main");
  const labels = [...main.querySelectorAll(".label[data-batch]")];
  const places = Number(form.first.max);
  const blank = () => Object.assign(document.createElement("div"), { className: "label blank" });
  const lay = () => {
    const wanted = new Set([...form.querySelectorAll(":checked")].map((box) => box.value));
    const first = Math.min(Math.max(Math.trunc(Number(form.first.value)) || 1, 1), places);
    const all = [...Array.from({ length: first - 1 }, blank), ...labels.filter((one) => wanted.has(one.dataset.batch))];
    for (const sheet of main.querySelectorAll(".sheet")) sheet.remove();
    for (let at = 0; at < all.length; at += places) {
      const sheet = Object.assign(document.createElement("section"), { className: "sheet" });
      sheet.append(...all.slice(at, at + places));
      main.append(sheet);
    }
  };
  const blanks = main.querySelectorAll(".blank").length;
  if (blanks) form.first.value = String(blanks + 1);
  const tickAll = (on) => () => {
    for (const box of form.querySelectorAll("[type=checkbox]")) box.checked = on;
    lay();
  };
  form.querySelector(".every").addEventListener("click", tickAll(true));
  form.querySelector(".none").addEventListener("click", tickAll(false));
  form.addEventListener("input", lay);
  form.addEventListener("submit", (event) => event.preventDefault());
  form.querySelector(".print").addEventListener("click", () => print());
  form.hidden = false;
})();
