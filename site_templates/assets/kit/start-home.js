/* Everything here is an extra; without it the pages say the same. */
document.documentElement.classList.add("kit-js");
findPairs();
startTicks();
startSending();
showUnits();
startSettings();
startTables();
startMenu();
document.documentElement.classList.add("kit-ready");
