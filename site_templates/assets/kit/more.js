/* Where steps are told one at a time, what lies over the end of one says that there is more of it:
   its timer, or the line that goes back and on. */
const NEAR_PX = 12; // the room between two parts, and below the last line

const tellMore = () => {
  const edges = (part) => part.getBoundingClientRect();
  for (const moves of all(".kit-moves")) {
    const list = moves.previousElementSibling;
    const parts = [...list.querySelectorAll(":scope.kit-one > li:not(.kit-away) > *")];
    const over = parts.find((part) => part.matches(".timer") && edges(part).bottom > edges(moves).top - NEAR_PX) ?? moves;
    const hides = parts.some((part) => part !== over && edges(part).bottom > edges(over).top + NEAR_PX);
    for (const one of [moves, ...all(".timer", list)]) one.classList.toggle("kit-more", hides && one === over);
  }
};

const startMore = () => {
  const soon = () => requestAnimationFrame(tellMore);
  for (const what of ["scroll", "resize", "click", "load"]) addEventListener(what, soon, { passive: true });
  soon();
};
