// Alarms: pot life, cure and promise ring, and keep ringing until somebody puts them out on any tablet of the workshop.
// The sound is made here, of two tones; a tablet that is set to be silent shows them only. The screen stays awake while a
// clock runs, where the browser lets it.
"use strict";
(() => {
  const box = document.getElementById("alarm");
  if (!box) return;
  const [text, out] = [box.querySelector("p"), box.querySelector("button")];
  const sound = document.getElementById("sound");
  const FAR_MS = 15000;
  const NEAR_MS = 2000; // while it rings: another tablet may have put it out
  const AWAKE_MS = 12 * 3600 * 1000;
  let alarms = [], ahead = 0, asked = 0;

  // --- Sound: an oscillator of the browser's own; browsers let it sound once the page was touched. ------------------
  let audio = null;
  const silent = () => localStorage.getItem("silent") === "yes";
  const wake = () => {
    audio ??= window.AudioContext ? new AudioContext() : null;
    if (audio?.state === "suspended") audio.resume().catch(() => {});
  };
  document.addEventListener("pointerdown", wake);
  const ring = () => {
    wake();
    if (!audio || audio.state !== "running") return;
    for (const [after, hertz] of [[0, 880], [0.22, 660]]) {
      const tone = audio.createOscillator();
      const loud = audio.createGain();
      const start = audio.currentTime + after;
      tone.frequency.value = hertz;
      loud.gain.setValueAtTime(0.0001, start);
      loud.gain.exponentialRampToValueAtTime(0.4, start + 0.02);
      loud.gain.exponentialRampToValueAtTime(0.0001, start + 0.2);
      tone.connect(loud).connect(audio.destination);
      tone.start(start);
      tone.stop(start + 0.21);
    }
    document.documentElement.dataset.rang = String(Number(document.documentElement.dataset.rang ?? 0) + 1);
  };
  const said = () => { sound.textContent = silent() ? "Silent" : "Sound on"; sound.setAttribute("aria-pressed", String(silent())); };
  sound.hidden = false;
  sound.addEventListener("click", () => { localStorage.setItem("silent", silent() ? "no" : "yes"); said(); });
  said();

  // The bar of an alarm lies over the head of the page; the way to be silent goes onto it, and back when it is put out.
  const home = document.createComment("sound");
  sound.before(home);
  const toHand = (rings) => {
    if (rings && sound.parentElement !== box) text.after(sound);
    if (!rings && sound.parentElement === box) home.after(sound);
  };

  // --- The screen stays awake while a clock runs. --------------------------------------------------------------------
  let lock = null;
  const keepAwake = async () => {
    const wanted = alarms.some((item) => Date.parse(item.at) - now() < AWAKE_MS);
    if (!wanted) { lock?.release(); lock = null; return; }
    if (lock || !navigator.wakeLock || document.visibilityState !== "visible") return;
    lock = await navigator.wakeLock.request("screen").catch(() => null);
    lock?.addEventListener("release", () => { lock = null; });
  };
  document.addEventListener("visibilitychange", keepAwake);

  const now = () => Date.now() + ahead;
  const ask = () => {
    asked = Date.now();
    fetch("/alarms").then((answer) => (answer.ok ? answer.json() : Promise.reject(new Error(String(answer.status))))).then((told) => {
      ahead = Date.parse(told.now) - Date.now();
      alarms = told.alarms;
      keepAwake();
      tick();
    }).catch(() => {});
  };
  const due = () => alarms.filter((item) => Date.parse(item.at) <= now());
  const tick = () => {
    const rings = due();
    box.hidden = !rings.length;
    toHand(rings.length > 0);
    if (!rings.length) return;
    if (text.textContent !== rings[0].text) text.textContent = rings[0].text;
    if (out) out.dataset.key = rings[0].key;
    box.classList.toggle("silent", silent());
    if (!silent()) ring();
  };
  out?.addEventListener("click", () => {
    const key = out.dataset.key;
    const csrf = document.querySelector("input[name=csrf]")?.value ?? "";
    fetch("/alarms/out", { method: "POST", body: new URLSearchParams({ key, csrf }) }).then((answer) => {
      if (!answer.ok) return;
      alarms = alarms.filter((item) => item.key !== key);
      tick();
    }).catch(() => {}).finally(ask);
  });
  setInterval(() => {
    tick();
    if (Date.now() - asked > (due().length ? NEAR_MS : FAR_MS)) ask();
  }, 1000);
  document.addEventListener("htmx:after:swap", ask);
  ask();
})();
