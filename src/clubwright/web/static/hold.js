// What cannot be undone is signed by a button that is held for a second, while it fills; a tap on it does nothing.
// Whoever cannot hold, or has no scripts, ticks that they have looked, and then taps: two places, so no second tap does it.
"use strict";
(() => {
  const HOLD_MS = Number(document.documentElement.dataset.holdMs);
  const STRAYS_PX = 40;
  const { hold: HOW, more: MORE } = JSON.parse(document.documentElement.dataset.say); // in the language of the page
  let held = null;

  const tick = (button) => button.form.querySelector("input[name='looked']");
  const say = (button, text) => {
    const how = button.form.querySelector(".hold-how");
    if (how && how.textContent !== text) how.textContent = text;
  };
  const letGo = (text) => {
    if (!held) return;
    cancelAnimationFrame(held.frame);
    held.button.classList.remove("holding");
    if (text) say(held.button, text);
    held = null;
  };
  const watch = () => {
    const { button, since } = held;
    if (!button.isConnected || button.disabled) { letGo(); return; }
    // a frame comes after the fingers' news: a finger that was lifted meanwhile has let go already
    if (performance.now() - since < HOLD_MS) { held.frame = requestAnimationFrame(watch); return; }
    letGo();
    button.dataset.signed = "yes";
    const box = tick(button);
    box.checked = true;
    box.dataset.byHold = "yes";
    button.form.requestSubmit(button);
  };

  document.addEventListener("pointerdown", (event) => {
    const button = event.target.closest?.("button.hold");
    if (held) { letGo(MORE); return; } // a second finger
    if (!button || event.button !== 0 || button.disabled || button.ariaDisabled === "true" || tick(button).checked) return;
    if (!button.form.checkValidity()) { button.form.reportValidity(); return; }
    held = { button, pointer: event.pointerId, x: event.clientX, y: event.clientY, since: event.timeStamp, frame: 0 };
    button.classList.add("holding");
    held.frame = requestAnimationFrame(watch);
  });
  document.addEventListener("pointermove", (event) => {
    if (held?.pointer === event.pointerId && Math.hypot(event.clientX - held.x, event.clientY - held.y) > STRAYS_PX) letGo(MORE);
  });
  for (const ends of ["pointerup", "pointercancel"]) document.addEventListener(ends, () => letGo(MORE));
  window.addEventListener("blur", () => letGo(MORE));
  document.addEventListener("contextmenu", (event) => { if (event.target.closest?.("button.hold")) event.preventDefault(); });

  window.addEventListener("submit", (event) => {
    const button = event.target.querySelector("button.hold");
    const other = event.submitter && event.submitter !== button;
    if (!button || other || tick(button).checked) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    say(button, MORE);
  }, true);

  // A hold is for one sending: one that did not arrive is held again.
  document.addEventListener("htmx:finally:request", () => {
    for (const box of document.querySelectorAll("input[data-by-hold]")) { box.checked = false; delete box.dataset.byHold; }
  });
  const setUp = () => {
    for (const button of document.querySelectorAll("button.hold")) {
      tick(button).required = false; // asked for here, so that a hold need not tick first
      // The finger is still down when the next card is drawn: its lift is of this button, and no tap on what lies there now.
      button.ontouchend = (event) => { if (button.dataset.signed && event.cancelable) event.preventDefault(); };
      if (!button.disabled) say(button, HOW);
    }
  };
  document.addEventListener("htmx:after:swap", setUp);
  setUp();
})();
