/* Before the first paint: room for what the scripts put in, so that nothing jumps. */
document.documentElement.classList.replace("no-js", "js");
document.documentElement.classList.add("kit-js");
