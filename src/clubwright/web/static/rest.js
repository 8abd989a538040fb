// A card that was just drawn rests for a second: a second tap of the same hand does nothing, nor does a second Enter.
// The style sheet does the same for fingers where scripts are off; the workshop's computer asks once more.
"use strict";
(() => {
  const REST_MS = Number(document.documentElement.dataset.restMs);
  const POSTS = "form[method='post']:not([data-never-rests])";
  const RESTS = `main ${POSTS} button:not([type='button']), main .foot a.button, main .stop a.button`;
  const LEADS = "main a.why-link"; // a number leads away from the card: as quietly, it rests as its buttons do
  const CLICK_MS = 400; // a click comes after its finger was lifted, on a slow tablet some time after
  let wakes = 0; // a moment of performance.now(), as events carry it
  let early = false; // the finger or key that is down now went down while the card rested
  let waking = 0;

  const rest = () => {
    wakes = performance.now() + REST_MS;
    for (const item of document.querySelectorAll(RESTS)) {
      item.dataset.resting = "yes";
      item.setAttribute("aria-disabled", "true");
    }
    clearTimeout(waking);
    waking = setTimeout(wake, REST_MS);
  };
  const wake = () => {
    const left = wakes - performance.now();
    if (left > 0) { waking = setTimeout(wake, left); return; }
    for (const item of document.querySelectorAll("[data-resting]")) {
      delete item.dataset.resting;
      item.removeAttribute("aria-disabled");
    }
  };
  const refuse = (event) => { event.preventDefault(); event.stopImmediatePropagation(); };
  // An event carries when the finger moved, however late a busy page gets to it: a tap from before a redraw is early too.
  const tooEarly = (event) => early || event.timeStamp < wakes;
  const isRested = (item) => item?.closest?.(RESTS);

  const begins = (event) => { early = event.timeStamp < wakes; };
  const ends = () => setTimeout(() => { early = false; }, CLICK_MS);
  window.addEventListener("pointerdown", begins, true);
  window.addEventListener("pointerup", ends, true);
  window.addEventListener("pointercancel", ends, true);
  window.addEventListener("keyup", ends, true);
  window.addEventListener("keydown", (event) => {
    if (event.key !== "Enter" && event.key !== " ") return;
    begins(event);
    const sends = isRested(event.target) || (event.key === "Enter" && event.target.matches?.("input, select") && event.target.form?.matches(POSTS));
    if (event.repeat && sends) event.preventDefault(); // a key that is held down is one press
  }, true);
  const isLeading = (item) => item?.closest?.(LEADS);
  window.addEventListener("click", (event) => { if ((isRested(event.target) || isLeading(event.target)) && tooEarly(event)) refuse(event); }, true);
  window.addEventListener("submit", (event) => { if (event.target.matches(`main ${POSTS}`) && tooEarly(event)) refuse(event); }, true);

  let card = document.getElementById("bench");
  document.addEventListener("htmx:after:swap", () => {
    const now = document.getElementById("bench");
    if (now !== card) rest();
    card = now;
  });
  document.addEventListener("bench:rest", rest);
  window.addEventListener("pageshow", (event) => { if (event.persisted) rest(); });
  rest();
  requestAnimationFrame(rest); // from when it can be seen
})();
