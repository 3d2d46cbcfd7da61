/* Everything here is an extra; without it the pages say the same. All scripts of a page begin in one
   go when it is read to its end, so that nothing is painted half done. */
document.documentElement.classList.add("kit-js");
const STARTS = [];
document.addEventListener("DOMContentLoaded", () => {
  for (const start of STARTS) start();
  document.documentElement.classList.add("kit-ready");
});
