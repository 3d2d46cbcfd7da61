/* Everything here is an extra; without it the pages say the same. */
document.documentElement.classList.add("kit-js");
// For the scripts that some pages have of their own.
window.tripKit = { kept, FORMULAS, figuresWhere, shownAs };
findPairs();
startTicks();
startParty();
startTimers();
startNow();
startOrders();
showUnits();
startSettings();
startTables();
startMenu();
document.documentElement.classList.add("kit-ready");
