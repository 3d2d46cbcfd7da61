/* The menu of narrow screens, opened and closed by keys too. While it is shut, nothing in it is
   read out or reached. */
const startMenu = () => {
  const toggle = document.getElementById("__drawer");
  const label = document.querySelector("header label[for=__drawer]");
  const menu = document.querySelector(".md-sidebar--primary");
  if (!toggle || !label || !menu) return;
  // Where the screen is wide, the menu stands beside the page and needs no button.
  const narrow = () => opener.offsetParent !== null;
  const follow = () => {
    menu.inert = narrow() && !toggle.checked;
    opener.setAttribute("aria-expanded", String(toggle.checked));
  };
  const open = (on) => {
    toggle.checked = on;
    toggle.dispatchEvent(new Event("change", { bubbles: true }));
  };
  const opener = make("button", { type: "button", className: `${label.className} kit-menu`, "aria-label": WORDS.menu, onclick: () => {
    open(!toggle.checked);
    if (toggle.checked) all("a.md-nav__link", menu).find((link) => link.offsetParent)?.focus();
  } }, ...label.childNodes);
  label.replaceWith(opener);
  menu.addEventListener("keydown", (event) => {
    if (event.key !== "Escape" || !toggle.checked) return;
    open(false);
    opener.focus();
  });
  // Whoever steps out of the open menu must see where they are.
  menu.addEventListener("focusout", ({ relatedTarget: next }) => {
    if (toggle.checked && next && !menu.contains(next)) open(false);
  });
  toggle.addEventListener("change", follow);
  addEventListener("resize", follow);
  follow();
};
