// A keypad for trade notation: it lies over the strips while a figure is typed, and goes when it is done.
// It has the keys that the kind of figure needs and no others; a keyboard, a scanner or a gauge may type as well.
"use strict";
(() => {
  const DIGITS = [["7", "8", "9"], ["4", "5", "6"], ["1", "2", "3"], ["0", ".", "/"]];
  // Beside the digits: what stands before a figure, and what stands after it.
  const SIDES = {
    mass: [["g", "oz"], ["gr", "kg"], [], []],
    length: [["in", "mm"], ["1/2", "1/4"], ["1/8", "1/16"], ["1/32", "1/64"]],
    diameter: [["in", "mm"], ["space", "1/64"], [], []],
    angle: [["deg", "space"], ["1/2", "1/4"], ["up", "flat"], ["weak", "strong"]],
    loft: [["deg", "space"], ["1/2", "1/4"], ["weak", "strong"], []],
    lie: [["deg", "space"], ["1/2", "1/4"], ["up", "flat"], []],
    temperature: [["C", "F"], ["-", "space"], [], []],
    swing_weight: [["D", "C"], ["E", "B"], ["F", "A"], ["G", "1/2"]],
    moi: [["kg cm2", "space"], [], [], []],
    frequency: [["cpm", "Hz"], [], [], []],
  };
  const chosen = () => document.querySelector("#bench .reads input:checked");
  const kindOf = (input) => (input.dataset.keypad === "reading" ? chosen()?.dataset.kind : input.dataset.keypad);
  const hintOf = (input) => document.getElementById(input.getAttribute("aria-describedby"))?.textContent ?? "";
  const WORD = /^[a-zA-Z][a-zA-Z0-9 ]+$|^g$|^C$|^F$/;

  const type = (input, key) => {
    const before = input.value;
    if (key === "back") input.value = before.slice(0, -1);
    else if (key === "clear") input.value = "";
    else if (key === "space") input.value = `${before} `;
    else if (/^1\/\d+$/.test(key) && /\d$/.test(before)) input.value = `${before} ${key}`;
    else if (WORD.test(key) && kindOf(input) !== "swing_weight" && before && !before.endsWith(" ")) input.value = `${before} ${key}`;
    else input.value = before + key;
    input.dispatchEvent(new Event("input", { bubbles: true }));
    input.focus();
  };

  const WORDS = { back: "\u232b", space: "space" };
  const button = (input, key, look) => {
    const made = document.createElement("button");
    made.type = "button";
    made.textContent = WORDS[key] ?? key;
    if (key === "back") made.setAttribute("aria-label", "delete the last sign");
    made.className = look;
    // The field keeps the focus, so that a keyboard or a scanner may go on where the finger stopped.
    made.addEventListener("pointerdown", (event) => event.preventDefault());
    made.addEventListener("click", () => (key === "done" ? close(input) : type(input, key)));
    return made;
  };

  const close = (input) => {
    document.querySelectorAll(".keypad").forEach((pad) => pad.remove());
    input?.blur();
  };

  const open = (input) => {
    document.querySelectorAll(".keypad").forEach((pad) => pad.remove());
    const sides = SIDES[kindOf(input)];
    const place = document.querySelector("#bench .strips");
    if (!sides || !place) return;
    input.setAttribute("inputmode", "none");
    const pad = document.createElement("div");
    pad.className = "keypad";
    pad.setAttribute("role", "group");
    pad.setAttribute("aria-label", `Keypad: ${input.closest("label")?.firstChild.textContent.trim() ?? "figure"}`);
    const top = document.createElement("p");
    top.className = "keypad-shown";
    top.setAttribute("aria-hidden", "true");
    pad.append(top);
    DIGITS.forEach((row, line) => {
      row.forEach((key) => pad.append(button(input, key, "digit")));
      const side = sides[line];
      [0, 1].forEach((column) => pad.append(side[column] ? button(input, side[column], "word") : Object.assign(document.createElement("span"), { className: "gap" })));
    });
    for (const key of ["back", "clear", "done"]) pad.append(button(input, key, key));
    place.append(pad);
    mirror(input);
  };
  const mirror = (input) => {
    const top = document.querySelector(".keypad-shown");
    if (top) top.textContent = input.value || hintOf(input);
    top?.classList.toggle("empty", !input.value);
  };

  const FIELDS = "#bench input[data-keypad]:not([data-keypad=''])";
  // A card whose first figure has to be typed opens the keypad of that field by itself: once, when the card is new. While
  // nothing is typed on it the pad is idle: what another tablet keeps still redraws the card beneath it.
  let begun = "";
  const begin = () => {
    const card = document.querySelector("#bench .card-form[data-begins]");
    const which = `${document.getElementById("bench")?.dataset.step} ${card?.dataset.begins ?? ""}`;
    const isNew = which !== begun;
    begun = which;
    const input = isNew && card?.elements.namedItem(card.dataset.begins);
    if (!input || input.value || document.querySelector("#bench .finding, #bench .conflict")) return;
    input.setAttribute("inputmode", "none");
    input.focus({ preventScroll: true });
    document.querySelector(".keypad")?.setAttribute("data-idle", "yes");
  };
  document.addEventListener("pointerdown", (event) => {
    if (event.target.closest?.("#bench")) document.querySelector(".keypad")?.removeAttribute("data-idle");
  }, true);

  document.addEventListener("focusin", (event) => {
    if (event.target.matches?.(FIELDS)) open(event.target);
    else if (event.target.matches?.("#bench input:not([type=radio]), #bench select")) document.querySelectorAll(".keypad").forEach((pad) => pad.remove());
  });
  document.addEventListener("input", (event) => {
    if (!event.target.matches?.(FIELDS)) return;
    document.querySelector(".keypad")?.removeAttribute("data-idle");
    mirror(event.target);
  });
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") close(document.activeElement); });
  document.addEventListener("submit", () => document.querySelectorAll(".keypad").forEach((pad) => pad.remove()));
  document.addEventListener("change", (event) => {
    if (!event.target.matches?.("#bench .reads input")) return;
    hint();
    if (document.querySelector(".keypad")) open(document.querySelector("#bench input[name=value]"));
  });
  // Under the field of a reading stands how the chosen quantity is typed.
  const hint = () => {
    const place = document.getElementById("value-hint");
    if (place) place.textContent = chosen()?.dataset.hint ?? "";
  };
  // A figure that stands on a button is put into its field by one tap.
  document.addEventListener("click", (event) => {
    const offer = event.target.closest?.("#bench button.known");
    if (!offer) return;
    const field = offer.form.elements.namedItem(offer.dataset.field);
    field.value = offer.dataset.value;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    close(null);
  });
  document.addEventListener("bench:chosen", hint);
  document.addEventListener("htmx:after:swap", () => { hint(); begin(); });
  hint();
  begin();
})();
