// The link to the workshop's computer, one tap counted once, nothing lost silently, and clocks.
// Everything works as plain forms without it.
"use strict";
(() => {
  const SAY = JSON.parse(document.documentElement.dataset.say); // words in the language of the page
  const bench = () => document.getElementById("bench");
  const show = (id, yes, text) => {
    const box = document.getElementById(id);
    if (!box) return;
    if (text) box.textContent = text;
    box.hidden = !yes;
  };

  // --- The live link: a beat every second; three seconds of silence is a lost link. -------------------------------
  const SILENT_MS = 2500;
  const AGAIN_MS = 5000;
  let heard = Date.now();
  let opened = 0;
  let source = null;
  const lost = (yes) => {
    document.documentElement.classList.toggle("stale", yes);
    show("lost", yes);
    const state = document.getElementById("link-state");
    if (state && state.textContent !== (yes ? SAY.lost : SAY.live)) state.textContent = yes ? SAY.lost : SAY.live;
    for (const button of document.querySelectorAll("#bench button.primary")) {
      if (yes && !button.disabled) { button.disabled = true; button.dataset.held = "yes"; }
      if (!yes && button.dataset.held) { button.disabled = false; delete button.dataset.held; }
    }
  };
  const listen = () => {
    source?.close();
    opened = Date.now();
    source = new EventSource("/live");
    source.addEventListener("beat", (event) => {
      heard = Date.now();
      lost(false);
      refresh(JSON.parse(event.data).facts);
    });
    source.addEventListener("line", (event) => document.dispatchEvent(new CustomEvent("gauge:line", { detail: JSON.parse(event.data) })));
  };
  const watch = () => {
    const silent = Date.now() - heard;
    if (silent > SILENT_MS) lost(true);
    // A link that died without a word stays open for the browser: after a while it is made anew.
    if (silent > AGAIN_MS && Date.now() - opened > AGAIN_MS) listen();
  };

  // --- Another tablet kept something: load this very view anew, unless somebody is in the middle of something. ------
  const typing = () => document.querySelector("#bench .keypad:not([data-idle])")
    || [...document.querySelectorAll("#bench .card-form input")].some((f) => f.type !== "hidden" && (["radio", "checkbox"].includes(f.type) ? f.checked !== f.defaultChecked : f.value !== f.defaultValue))
    || document.querySelector("#bench .conflict, #bench .finding, #bench .stop, #bench .echo .understood, #bench .said, #bench .holding");
  let fetching = false;
  // Somebody began to type while the view was on its way: what they type stays, and the view is taken later.
  document.addEventListener("htmx:before:swap", (event) => {
    if (!fetching || event.detail?.ctx?.request?.method === "POST" || !typing()) return;
    event.preventDefault();
    show("newer", true);
  });
  const refresh = (facts) => {
    const page = bench();
    // Facts only grow: a beat that knows fewer than the page is older than the page.
    if (!page || fetching || Number(page.dataset.facts) >= facts || document.querySelector("#bench form[data-busy]")) return;
    if (typing()) { show("newer", true); return; }
    fetching = true;
    const open = [...document.querySelectorAll("#bench details[id][open]")].map((item) => item.id);
    const held = page.contains(document.activeElement) ? document.activeElement : null;
    const step = page.dataset.step;
    htmx.ajax("GET", page.dataset.here, { target: "#bench", swap: "outerHTML" }).finally(() => {
      fetching = false;
      for (const id of open) document.getElementById(id)?.setAttribute("open", "");
      // Back to the same field of the same step; never to a button, which may mean another line by now.
      const fields = held?.name && bench().dataset.step === step ? [...document.querySelectorAll("#card-form input, #card-form select")] : [];
      const same = fields.find((item) => item.name === held.name && (item.type !== "radio" || item.value === held.value));
      same?.focus({ preventScroll: true });
    });
  };

  // --- Nothing is lost silently: a save that did not arrive says so, and keeps what was typed. ---------------------
  const NOT_SAVED = "NOT SAVED, as far as this tablet knows. What you typed is still here: tap again, it is never kept twice.";
  const REFUSED = [401, 403, 413, 415, 421, 429];
  const posted = (event) => event.detail?.ctx?.request?.method === "POST";
  document.addEventListener("htmx:error", (event) => { if (posted(event)) show("not-saved", true, NOT_SAVED); });
  document.addEventListener("htmx:after:request", (event) => {
    const ctx = event.detail.ctx;
    const status = ctx.response.status;
    if (status < 500 && !REFUSED.includes(status)) { if (posted(event)) show("not-saved", false); return; }
    event.preventDefault(); // the page stays as it is
    const said = new DOMParser().parseFromString(ctx.text, "text/html").querySelector(".refused")?.textContent.replace(/\s+/g, " ").trim();
    if (posted(event)) show("not-saved", true, status < 500 && said ? `NOT SAVED. ${said}` : NOT_SAVED);
  });

  // --- One tap: a form under way takes no second one. ----------------------------------------------------------------
  const BUSY_MS = 5000;
  document.addEventListener("submit", (event) => {
    const form = event.target;
    if (form.dataset.busy && Date.now() - Number(form.dataset.busy) < BUSY_MS) {
      event.preventDefault();
      event.stopImmediatePropagation();
      return;
    }
    form.dataset.busy = String(Date.now());
  }, true);
  document.addEventListener("htmx:finally:request", () => {
    for (const form of document.querySelectorAll("form[data-busy]")) delete form.dataset.busy;
  });

  // --- Clocks: what is left until a moment of the record, by the workshop's clock; a reload changes nothing. --------
  let ahead = 0;
  const twoDigits = (n) => String(n).padStart(2, "0");
  const tick = () => {
    for (const clock of document.querySelectorAll(".clock[data-until]")) {
      const left = Math.round((Date.parse(clock.dataset.until) - Date.now() - ahead) / 1000);
      const size = Math.abs(left);
      const text = `${twoDigits(Math.floor(size / 3600))}:${twoDigits(Math.floor(size / 60) % 60)}:${twoDigits(size % 60)}`;
      clock.querySelector(".time").textContent = `${left > 0 ? SAY.left : SAY.over} ${text}`;
      clock.classList.toggle("over", left <= 0);
    }
  };

  let step = bench()?.dataset.step;
  const setUp = () => {
    const page = bench();
    if (!page) return;
    if (page.dataset.step !== step) window.scrollTo(0, 0); // another card: its top is what comes next
    step = page.dataset.step;
    ahead = Date.parse(page.dataset.now) - Date.now();
    show("newer", false);
    tick();
    if (document.documentElement.classList.contains("stale")) lost(true);
  };
  document.addEventListener("htmx:after:swap", setUp);
  if (bench()) {
    setUp();
    listen();
    setInterval(watch, 250);
    setInterval(tick, 1000);
  }
})();
