/* Where a browser or a low battery does not allow it, the reader hears what to do instead. */
const awake = { lock: null, wanted: false, refused: false, followers: [] };
const followAwake = async () => {
  try {
    if (awake.wanted && !awake.lock && document.visibilityState === "visible") {
      awake.lock = await navigator.wakeLock.request("screen");
      awake.lock.addEventListener("release", () => { awake.lock = null; });
    } else if (!awake.wanted && awake.lock) await awake.lock.release();
  } catch {
    awake.wanted = false;
    awake.refused = true;
  }
  for (const follow of awake.followers) follow();
};
const awakeTools = () => {
  const toggle = button(WORDS.awake, () => {
    awake.wanted = !awake.wanted;
    awake.refused = false;
    followAwake();
  });
  const told = make("span", { className: "kit-awake", role: "status" });
  const follow = () => {
    press(toggle, awake.wanted);
    told.textContent = awake.refused ? WORDS.cannotWake : "";
  };
  if (!awake.followers.length) document.addEventListener("visibilitychange", followAwake);
  awake.followers.push(follow);
  follow();
  return [toggle, told];
};
