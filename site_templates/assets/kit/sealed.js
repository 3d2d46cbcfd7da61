/* A sealed kit: opened in this browser by what it brings along, and locked again when it is left. */
const bytesOf = (text) => Uint8Array.from(atob(text), (sign) => sign.charCodeAt(0));
const written64 = (bytes) => btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(""));
const CIPHER = "AES-GCM";
const KEPT_PURPOSE = new TextEncoder().encode("trip kit, kept, 1");
const ZIP_TYPE = "application/zip";

const keyOf = async (passphrase, { salt, rounds }) => {
  const typed = new TextEncoder().encode(passphrase.normalize("NFC").trim());
  const base = await crypto.subtle.importKey("raw", typed, "PBKDF2", false, ["deriveKey"]);
  const how = { name: "PBKDF2", hash: "SHA-256", salt: bytesOf(salt), iterations: rounds };
  return crypto.subtle.deriveKey(how, base, { name: CIPHER, length: 256 }, false, ["encrypt", "decrypt"]);
};
const opened = async (key, nonce, content, additionalData) => new Uint8Array(
  await crypto.subtle.decrypt({ name: CIPHER, iv: bytesOf(nonce), additionalData }, key, bytesOf(content)),
);

/* What is ticked off tells of the trip: on the phone it lies sealed too, with the same key. */
const keepSealed = async (key, salt) => {
  const { get, set: put } = kept;
  const name = `sealed ${salt}`;
  let held = {};
  try {
    const { nonce, content } = get(name);
    held = JSON.parse(new TextDecoder().decode(await opened(key, nonce, content, KEPT_PURPOSE)));
  } catch { /* nothing was kept, or nothing that can be read */ }
  const write = async () => {
    const iv = crypto.getRandomValues(new Uint8Array(12));
    const text = new TextEncoder().encode(JSON.stringify(held));
    const how = { name: CIPHER, iv, additionalData: KEPT_PURPOSE };
    const content = new Uint8Array(await crypto.subtle.encrypt(how, key, text));
    put(name, { nonce: written64(iv), content: written64(content) });
  };
  let last = Promise.resolve();
  kept.get = (what) => held[what] ?? null;
  kept.set = (what, value) => {
    if (value === null) delete held[what];
    else held[what] = value;
    last = last.then(write); // one after the other, so that the newest stays
  };
};

/* The title stays as it is: browsers write titles down. */
const showOpened = (bytes, starts) => {
  const begins = 4 + new DataView(bytes.buffer).getUint32(0);
  const html = new TextDecoder().decode(bytes.subarray(4, begins));
  document.body.replaceChildren(...new DOMParser().parseFromString(html, "text/html").body.childNodes);
  const zip = new Blob([bytes.subarray(begins)], { type: ZIP_TYPE });
  document.getElementById("kit-zip").href = URL.createObjectURL(zip);
  const whole = document.getElementById("whole-kit");
  document.querySelector("body > header nav ul")
    ?.append(make("li", { className: "whole-kit" }, make("a", { href: "#whole-kit" }, whole.textContent)));
  for (const start of starts) start();
  const heading = document.querySelector("h1");
  heading.tabIndex = -1;
  heading.focus();
};

const startSealed = (starts) => {
  const [form, passphrase, seen, opening, wrong] =
    ["unseal", "passphrase", "seen", "opening", "wrong"].map((id) => document.getElementById(id));
  document.querySelector(".no-field").remove();
  if (!globalThis.crypto?.subtle) {
    wrong.textContent = WORDS.noCrypto;
    return;
  }
  form.hidden = false;
  passphrase.focus();
  seen.addEventListener("change", () => { passphrase.type = seen.checked ? "text" : "password"; });
  const tellWrong = (words) => {
    opening.textContent = "";
    wrong.textContent = words;
    passphrase.setAttribute("aria-invalid", "true");
    passphrase.select();
    passphrase.focus();
  };
  const unsealed = async () => {
    try {
      const sealed = JSON.parse(document.getElementById("sealed").textContent);
      const key = await keyOf(passphrase.value, sealed);
      const purpose = new TextEncoder().encode(sealed.purpose);
      const bytes = await opened(key, sealed.nonce, sealed.content, purpose);
      await keepSealed(key, sealed.salt);
      return bytes;
    } catch {
      return null;
    }
  };
  let busy = false;
  form.addEventListener("submit", async (event) => {
    event.preventDefault();
    if (busy) return;
    if (!passphrase.value.trim()) {
      tellWrong(WORDS.noPassphrase);
      return;
    }
    busy = true;
    wrong.textContent = "";
    passphrase.removeAttribute("aria-invalid");
    opening.textContent = WORDS.opening;
    const bytes = await unsealed();
    busy = false;
    if (bytes) showOpened(bytes, starts);
    else tellWrong(WORDS.wrong);
  });
};
