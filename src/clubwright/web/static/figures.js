// Every figure that is typed on a card is read back beside its field: what it was understood as, and what it goes against.
// Nothing waits for it, and nothing is kept by it; without scripts the workshop's computer says the same when it is sent.
"use strict";
(() => {
  const FIELDS = "#bench .card-form:not([data-kind=reading]) input[data-keypad]:not([data-keypad=''])";
  const QUIET_MS = 250;
  const waiting = new WeakMap();
  const place = (input) => input.closest(".cell")?.querySelector(".figure-echo");
  const ask = (input) => {
    const value = input.value.trim();
    const gauge = input.form.elements.namedItem(`gauge_${input.dataset.keypad}`)?.value ?? "";
    const query = new URLSearchParams({ name: input.dataset.figure || input.name, kind: input.dataset.keypad, value, gauge: gauge === "-" ? "" : gauge });
    fetch(`/bench/${document.getElementById("bench").dataset.job}/figure?${query}`, { headers: { "HX-Request": "true" } })
      .then((answer) => (answer.ok ? answer.text() : Promise.reject(new Error(String(answer.status)))))
      .then((text) => {
        const box = place(input);
        if (!box || !input.isConnected || input.value.trim() !== value) return;
        box.innerHTML = text;
        if (box.querySelector(".against")) box.scrollIntoView({ block: "nearest" });
      })
      .catch(() => {});
  };
  document.addEventListener("input", (event) => {
    const input = event.target;
    if (!input.matches?.(FIELDS)) return;
    const box = place(input);
    if (!box) return;
    clearTimeout(waiting.get(input));
    box.textContent = "";
    if (input.value.trim()) waiting.set(input, setTimeout(() => ask(input), QUIET_MS));
  });
  document.addEventListener("change", (event) => {
    if (!event.target.matches?.("#bench .card-form select[name^='gauge_']")) return;
    for (const input of document.querySelectorAll(FIELDS)) if (input.value.trim() && `gauge_${input.dataset.keypad}` === event.target.name) ask(input);
  });
})();
