// The little the page does by itself: the live link, the keypad, the echo, clocks, and one tap counted once.
// Everything works as plain forms without it.
"use strict";
(() => {
  const STALE_MS = 2500;
  let heard = Date.now();

  // --- The live link: a beat every second; three seconds of silence is a lost link. -------------------------------
  const lost = (yes) => {
    document.documentElement.classList.toggle("stale", yes);
    const box = document.getElementById("lost");
    if (box) box.hidden = !yes;
    const state = document.getElementById("link-state");
    if (state) state.textContent = yes ? "link lost" : "live";
  };
  const refresh = (facts) => {
    const bench = document.getElementById("bench");
    if (!bench || Number(bench.dataset.facts) === facts || document.querySelector("#bench input:focus")) return;
    if (bench.querySelector(".conflict, .finding") || typing()) return;
    const step = new URLSearchParams(location.search).get("step");
    htmx.ajax("GET", `/bench/${bench.dataset.job}${step ? `?step=${encodeURIComponent(step)}` : ""}`, { target: "#bench", swap: "outerHTML" });
  };
  const typing = () => [...document.querySelectorAll("#bench .main-form input")].some((f) => f.type !== "hidden" && f.type !== "radio" && f.value !== f.defaultValue);
  if (document.getElementById("bench")) {
    const source = new EventSource("/live");
    source.addEventListener("beat", (event) => {
      heard = Date.now();
      lost(false);
      refresh(JSON.parse(event.data).facts);
    });
    setInterval(() => { if (Date.now() - heard > STALE_MS) lost(true); }, 250);
  }

  // --- Nothing is lost silently: a save that did not arrive says so, and keeps what was typed. --------------------
  const notSaved = (yes) => { const box = document.getElementById("not-saved"); if (box) box.hidden = !yes; };
  for (const name of ["htmx:error", "htmx:response:error", "htmx:timeout", "htmx:sendError"]) {
    document.addEventListener(name, (event) => {
      const status = event.detail?.ctx?.response?.status;
      if (!status || status >= 500) notSaved(true);
    });
  }
  document.addEventListener("htmx:after:request", (event) => {
    const status = event.detail?.ctx?.response?.status;
    if (status && status < 500) notSaved(false);
  });

  // --- One tap: the button of a form under way does nothing more. --------------------------------------------------
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.busy && Date.now() - Number(form.dataset.busy) < 4000) { event.preventDefault(); event.stopImmediatePropagation(); return; }
    form.dataset.busy = String(Date.now());
  }, true);
  document.addEventListener("htmx:after:swap", () => { document.querySelectorAll("form[data-busy]").forEach((f) => delete f.dataset.busy); setUp(); });

  // --- Keypad: trade notation by touch. ------------------------------------------------------------------------------
  const KEYS = {
    reading: ["A", "B", "C", "D", "E", "F", "1", "2", "3", "4", "5", "6", "7", "8", "9", "0", ".", "/", " ", "+", "-", "g", "in", "deg", "mm", "pt", "cpm", "kg cm2", "\u232b", "clear"],
    mass: ["1", "2", "3", "4", "5", " g", "6", "7", "8", "9", "0", ".", "\u232b", "clear"],
    length: ["1", "2", "3", "4", "5", " in", "6", "7", "8", "9", "0", " mm", ".", "/", " ", "-", "\u232b", "clear"],
    angle: ["1", "2", "3", "4", "5", " deg", "6", "7", "8", "9", "0", "1/2", ".", "/", " ", " up", " flat", "\u232b", "clear"],
    temperature: ["1", "2", "3", "4", "5", " C", "6", "7", "8", "9", "0", " F", "\u232b", "clear"],
  };
  const keypad = (input) => {
    document.querySelectorAll(".keypad").forEach((pad) => pad.remove());
    const keys = KEYS[input.dataset.keypad];
    if (!keys) return;
    const pad = document.createElement("div");
    pad.className = "keypad";
    pad.setAttribute("role", "group");
    pad.setAttribute("aria-label", "Keypad");
    for (const key of keys) {
      const button = document.createElement("button");
      button.type = "button";
      button.textContent = key === " " ? "space" : key.trim();
      button.addEventListener("pointerdown", (event) => event.preventDefault());
      button.addEventListener("click", () => {
        if (key === "clear") input.value = "";
        else if (key === "\u232b") input.value = input.value.slice(0, -1);
        else input.value += key.length > 1 && !key.startsWith(" ") && input.value && key !== "1/2" ? ` ${key}` : key;
        input.dispatchEvent(new Event("input", { bubbles: true }));
        input.focus();
      });
      pad.append(button);
    }
    input.closest("label").after(pad);
  };
  document.addEventListener("focusin", (event) => { if (event.target.matches?.("input[data-keypad]:not([data-keypad=''])")) keypad(event.target); });

  // --- Echo: what was typed is read back before it is kept. ----------------------------------------------------------
  let waiting = 0;
  const understand = (form) => {
    const data = new FormData(form);
    const ask = new URLSearchParams({ quantity: data.get("quantity"), stage: data.get("stage"), value: data.get("value") });
    const bench = document.getElementById("bench");
    fetch(`/bench/${bench.dataset.job}/echo?${ask}`, { headers: { "HX-Request": "true" } })
      .then((answer) => (answer.ok ? answer.text() : Promise.reject(answer.status)))
      .then((text) => {
        const box = form.querySelector("#echo");
        if (!box || form.querySelector("[name=value]").value !== data.get("value")) return;
        box.innerHTML = text;
        let seen = form.querySelector("[name=confirmed]");
        const good = box.querySelector(".understood");
        if (!good) { seen?.remove(); form.querySelector("button.primary").textContent = "Read it back"; return; }
        if (!seen) { seen = document.createElement("input"); seen.type = "hidden"; seen.name = "confirmed"; form.append(seen); }
        seen.value = data.get("value").trim();
        form.querySelector("button.primary").textContent = "Keep the reading";
      })
      .catch(() => {});
  };
  document.addEventListener("input", (event) => {
    const form = event.target.closest?.("form[data-kind=reading]");
    if (!form || !form.querySelector("[name=value]").value.trim()) return;
    clearTimeout(waiting);
    waiting = setTimeout(() => understand(form), 120);
  });

  // --- A scanner or a gauge that types like a keyboard: a fast burst ending in Enter goes to the open field. ---------
  let burst = "", last = 0;
  document.addEventListener("keydown", (event) => {
    const now = performance.now();
    if (now - last > 45) burst = "";
    last = now;
    if (event.key.length === 1) { burst += event.key; return; }
    if (event.key !== "Enter" || burst.length < 4 || event.target.matches?.("input, textarea")) return;
    const field = document.querySelector("#bench input[data-keypad=reading], #bench input[name=code]");
    if (!field) return;
    event.preventDefault();
    field.value = burst;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.focus();
    burst = "";
  });

  // --- Clocks: what is left until a moment the record knows; a reload changes nothing. --------------------------------
  const tick = () => document.querySelectorAll(".clock[data-until]").forEach((clock) => {
    const left = Math.round((Date.parse(clock.dataset.until) - Date.now()) / 1000);
    const size = Math.abs(left);
    const text = [Math.floor(size / 3600), Math.floor(size / 60) % 60, size % 60].map((n) => String(n).padStart(2, "0")).join(":");
    clock.textContent = left > 0 ? `${text} left` : `time is up since ${text}`;
  });
  setInterval(tick, 1000);

  const setUp = () => {
    tick();
    const bench = document.getElementById("bench");
    if (bench && !document.activeElement?.matches?.("input, select, textarea")) document.title = `${bench.dataset.job} bench`;
  };
  setUp();
})();
