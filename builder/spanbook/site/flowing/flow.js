// Which way it goes through a machine, looked up in its series' table: as it left the works, and after conversions.
"use strict";

(() => {
  const place = document.querySelector("[data-card]");
  const box = document.querySelector("[data-flow]");
  if (!place || !box) return;
  const out = box.querySelector("[data-flows]");
  const { inside, make } = SpanbookPieces;
  const { link, sentence } = SpanbookPieces.linking(place.dataset.root);

  function render(table, number) {
    const parts = [];
    for (const [title, address, runs] of table.circuits) {
      const head = document.createElement("h3");
      const list = document.createElement("ul");
      head.append(link(title, address));
      list.append(...runs.find((run) => inside(run, number))[2].map((at) => sentence("li", table.lines[at])));
      parts.push(head, list);
    }
    out.replaceChildren(...parts);
  }

  async function begin() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!asked) return;
    const [, all] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    const several = found.length === 0 && SpanbookSerials.together(all, asked).length > 0;
    const [series, number] = several ? SpanbookSerials.together(all, asked)[0][0] : found.length === 1 ? found[0] : [];
    if (!series || !box.dataset.flow.split(" ").includes(series[0])) return;
    box.hidden = false;
    box.addEventListener("toggle", async () => {
      if (!box.open || box.dataset.done) return;
      const table = await spanbookLoad(`flow-${series[0]}`, "../flow/");
      if (several) out.replaceChildren(make("p", table.words.together));
      else render(table, number);
      box.dataset.done = asked;
    });
  }

  begin();
})();
