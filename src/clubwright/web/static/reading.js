// A reading comes from fingers, from a scanner or gauge that types like a keyboard, or from a gauge's live line.
// All three end in the same field, and what was understood is read back before it is kept.
"use strict";
(() => {
  const SAY = JSON.parse(document.documentElement.dataset.say); // words in the language of the page
  const $ = (query) => document.querySelector(query);

  // --- Echo: what was typed is read back before it is kept. ---------------------------------------------------------
  let waiting = 0;
  const form = () => $("#bench form[data-kind=reading]");
  const typed = (card) => {
    const data = new FormData(card);
    return JSON.stringify([data.get("quantity"), data.get("stage"), data.get("value").trim(), data.get("gauge")]);
  };
  const unseen = (card) => {
    delete card.dataset.understood;
    card.querySelector("[name=confirmed]")?.remove();
    const primary = card.querySelector("button.primary");
    if (primary && !card.querySelector(".conflict")) primary.textContent = SAY.back;
  };
  const understand = (card) => {
    const data = new FormData(card);
    const value = data.get("value").trim();
    const asked = typed(card);
    const ask = new URLSearchParams({ quantity: data.get("quantity"), stage: data.get("stage"), value, gauge: data.get("gauge") });
    fetch(`/bench/${$("#bench").dataset.job}/echo?${ask}`, { headers: { "HX-Request": "true" } })
      .then((answer) => (answer.ok ? answer.text() : Promise.reject(new Error(String(answer.status)))))
      .then((text) => {
        const box = card.querySelector("#echo");
        if (!card.isConnected || typed(card) !== asked) return;
        box.innerHTML = text;
        if (!box.querySelector(".understood")) { unseen(card); return; }
        let seen = card.querySelector("[name=confirmed]");
        if (!seen) { seen = Object.assign(document.createElement("input"), { type: "hidden", name: "confirmed" }); card.append(seen); }
        seen.value = value;
        card.dataset.understood = typed(card);
        const primary = card.querySelector("button.primary");
        if (card.querySelector(".conflict") || primary.textContent === SAY.keep) return;
        primary.textContent = SAY.keep;
        document.dispatchEvent(new Event("bench:rest")); // the button means something else now
      })
      .catch(() => {});
  };
  const changed = (event) => {
    const card = event.target.closest?.("form[data-kind=reading]");
    // leaving a field says "change" too, although nothing is another than what was read back
    if (!card || card.dataset.understood === typed(card)) return;
    unseen(card);
    clearTimeout(waiting);
    card.querySelector("#echo").textContent = "";
    if (card.querySelector("[name=value]").value.trim()) waiting = setTimeout(() => understand(card), 120);
  };
  // What is expected beside each choice is of the stage that is chosen; the stage that the card came with has its own words.
  const follow = (event) => {
    const stage = event.target;
    if (stage.name !== "stage" || !stage.closest("form[data-kind=reading]")) return;
    const card = stage.form;
    const say = (told) => {
      for (const choice of card.querySelectorAll("[name=quantity]")) {
        const note = choice.parentElement.querySelector(".chip-note");
        note.dataset.own ??= note.innerHTML;
        if (told) note.textContent = told[choice.value] ?? "";
        else note.innerHTML = note.dataset.own;
      }
    };
    if (stage.defaultChecked) { say(null); return; }
    fetch(`/bench/${$("#bench").dataset.job}/expected?${new URLSearchParams({ stage: stage.value })}`)
      .then((answer) => (answer.ok ? answer.json() : {}))
      .then((told) => { if (card.isConnected && stage.checked) say(told); })
      .catch(() => {});
  };
  document.addEventListener("change", follow);
  document.addEventListener("input", changed);
  document.addEventListener("change", changed);

  // --- A scanner or a gauge that types: a fast burst that ends in Enter goes to the open field. ----------------------
  const FAST_MS = 120; // between two signs: a scanner on a slow tablet, still faster than a person
  let burst = "", last = 0;
  const target = () => form()?.querySelector("[name=value]") ?? $("#bench input[name=code]");
  document.addEventListener("keydown", (event) => {
    const now = event.timeStamp; // when the key went down, however late the page gets to it
    if (now - last > FAST_MS) burst = "";
    last = now;
    if (event.key.length === 1) { burst += event.key; return; }
    if (event.key !== "Enter" || burst.length < 4 || event.target.matches?.("input, textarea, select")) return;
    const field = target();
    if (!field) return;
    event.preventDefault();
    field.value = burst;
    burst = "";
    field.dispatchEvent(new Event("input", { bubbles: true }));
    if (field.name === "code") field.form.requestSubmit();
    else field.focus();
  }, true);

  // --- An instrument's live line: what it shows now, and one tap that puts it into the field. -----------------------
  const QUIET_MS = 3000;
  const lines = new Map();
  const fits = (line) => {
    const card = form();
    if (card) return [...card.querySelectorAll("[name=quantity]")].some((item) => line.quantities.includes(item.value)) ? card.querySelector("[name=value]") : null;
    const focused = document.activeElement?.matches?.("#bench input[data-keypad]") ? document.activeElement : null;
    if (focused?.dataset.keypad === line.kind) return focused;
    const fields = [...document.querySelectorAll(`#bench .card input[data-keypad="${line.kind}"]`)];
    return fields.find((field) => !field.value) ?? null;
  };
  const take = (line) => {
    const field = fits(line);
    if (!field) return;
    const card = form();
    if (card) {
      const choices = [...card.querySelectorAll("[name=quantity]")];
      if (!line.quantities.includes(choices.find((item) => item.checked)?.value)) {
        const choice = choices.find((item) => line.quantities.includes(item.value));
        choice.checked = true;
        document.dispatchEvent(new Event("bench:chosen"));
      }
      const gauge = card.querySelector("[name=gauge]");
      if ([...gauge.options].some((option) => option.value === line.gauge || option.textContent === line.gauge)) gauge.value = line.gauge;
    }
    field.value = line.text;
    field.dispatchEvent(new Event("input", { bubbles: true }));
  };
  const draw = () => {
    const body = $("#bench .card-body");
    if (!body) return;
    for (const [name, line] of lines) {
      let box = [...body.querySelectorAll(".gauge-line")].find((item) => item.dataset.gauge === name);
      const alive = Date.now() - line.heard < QUIET_MS && fits(line);
      if (!alive) { box?.remove(); continue; }
      if (!box) {
        box = document.createElement("p");
        box.className = "gauge-line";
        box.dataset.gauge = name;
        box.append(document.createElement("span"), document.createElement("button"));
        box.lastChild.type = "button";
        box.lastChild.textContent = SAY.take;
        box.lastChild.addEventListener("pointerdown", (event) => event.preventDefault());
        box.lastChild.addEventListener("click", () => take(lines.get(name)));
        body.prepend(box);
      }
      const said = `${name}: ${line.text}${line.stable ? "" : " (still moving)"}${line.dropped > 1 ? `, ${line.dropped} torn lines dropped` : ""}`;
      if (box.firstChild.textContent !== said) box.firstChild.textContent = said;
      box.firstChild.className = "live";
      box.lastChild.disabled = !line.stable;
    }
  };
  document.addEventListener("gauge:line", (event) => {
    lines.set(event.detail.gauge, { ...event.detail, heard: Date.now() });
    draw();
  });
  document.addEventListener("htmx:after:swap", draw);
  setInterval(draw, 1000);
})();
