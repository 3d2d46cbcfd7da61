/* Shows what was saved: loads the page anew when the kit was rebuilt, and says what is wrong.
   What is ticked, typed or timed stays, since the kit keeps it by this address. */
(() => {
  const built = document.querySelector('meta[name="kit-preview"]').content;
  const make = (tag, text = "") => Object.assign(document.createElement(tag), { textContent: text });
  let shown = null;
  const show = ({ stopped, title, said }) => {
    shown?.remove();
    shown = null;
    if (!said.length) return;
    shown = make("details");
    shown.id = "kit-preview";
    shown.lang = "en";
    shown.open = stopped;
    shown.classList.toggle("stopped", stopped);
    if (stopped) shown.setAttribute("role", "alert");
    shown.append(make("summary", title), make("pre", said.join("\n")));
    document.body.append(shown);
  };
  let events = null;
  // A page that nobody looks at keeps no line open: a browser has only a few for one address.
  const follow = () => {
    events?.close();
    events = null;
    if (document.hidden) return;
    events = new EventSource("/.preview/events");
    events.onmessage = ({ data }) => {
      const told = JSON.parse(data);
      if (told.build === built) show(told);
      else location.reload();
    };
  };
  document.addEventListener("visibilitychange", follow);
  addEventListener("pageshow", ({ persisted }) => { if (persisted) follow(); });
  follow();
})();
