// Everything that is renewed on a machine, looked up in its series' table: position by position.
"use strict";

(() => {
  const place = document.querySelector("[data-card]");
  const box = document.querySelector("[data-renew]");
  if (!place || !box) return;
  const out = box.querySelector("[data-renewals]");
  const { inside, make } = SpanbookPieces;
  const { link } = SpanbookPieces.linking(place.dataset.root);

  // One assembly that it may hold: the way to its sheet for this machine, how it comes to be there, what is renewed.
  function renderHeld(table, [title, address, how, renew], shown) {
    const item = document.createElement("div");
    const head = make("p", "");
    head.append(link(title, address, `?serial=${encodeURIComponent(shown)}`), `. ${how}`);
    const list = document.createElement("ul");
    list.append(...renew.map((at) => {
      const line = document.createElement("li");
      line.append(link(...table.lines[at]));
      return line;
    }));
    item.append(head, renew.length ? list : make("p", table.words.nothing));
    return item;
  }

  function render(table, number, shown) {
    const silent = new Map();
    const parts = [];
    for (const [title, runs] of table.places) {
      const [held, untold] = table.told[runs.find((run) => inside(run, number))[2]];
      if (held.length) parts.push(make("h3", title), ...held.map((one) => renderHeld(table, one, shown)));
      for (const [sentence, what] of untold) silent.set(sentence, (silent.get(sentence) ?? new Set()).add(what));
    }
    const rest = [...silent].map(([sentence, what]) => make("p", sentence.replace("{}", () => [...what].join(table.words.beside))));
    out.replaceChildren(...parts, ...rest);
  }

  // What goes by the number of one machine is told for that number alone.
  async function begin() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!asked) return;
    const [, all] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    const several = found.length === 0 && SpanbookSerials.together(all, asked).length > 0;
    if (found.length !== 1 && !several) return;
    box.hidden = false;
    // By a click: to print it the theme opens every such box as well.
    box.querySelector("summary").addEventListener("click", async () => {
      if (box.dataset.done) return;
      const [series, number] = several ? SpanbookSerials.together(all, asked)[0][0] : found[0];
      const table = await spanbookLoad(`renew-${series[0]}`, "../sheet/");
      const shown = SpanbookSerials.show(series, number);
      if (several) out.replaceChildren(make("p", table.words.together));
      else render(table, number, shown);
      box.dataset.done = shown;
      box.dispatchEvent(new Event("told"));
    });
  }

  begin();
})();
