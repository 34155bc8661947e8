// A strip-down for one machine: the lines of the sheet that go by its number, looked up in the assembly's table.
"use strict";

(() => {
  const place = document.querySelector("[data-sheet]");
  if (!place) return;
  const out = place.querySelector("[data-for]");
  // The number that was asked for, or the reader's own.
  const asked = (new URLSearchParams(location.search).get("serial") ?? SpanbookMine.shown()).trim();
  const { filled, inside, make } = SpanbookPieces;
  const { sentence } = SpanbookPieces.linking(place.dataset.root);

  function fill(name, items) {
    const list = place.querySelector(`[data-${name}]`);
    list.replaceChildren(...items);
    const around = list.closest("section.sb-may-lack");
    if (around) around.hidden = items.length === 0;
  }

  function show(table, [steps, rest, renew, tray]) {
    const lines = (each, tag) => each.map((line) => make(tag, table.lines[line]));
    place.querySelectorAll("[data-lines]").forEach((list, i) => list.replaceChildren(...lines(steps[i], "li")));
    fill("rest", lines(rest, "p"));
    fill("renew", renew.map((one) => sentence("li", [table.links[one]])));
    fill("tray", lines(tray, "li"));
  }

  // What is said of the one machine that was asked for; the sheet is any machine's until its lines are known.
  function answer(table, all) {
    const read = SpanbookSerials.readings(all, asked);
    const found = read.filter(([, , was]) => was);
    if (found.length !== 1) {
      const many = found.length || SpanbookSerials.together(all, asked).length;
      return filled(table.words[many ? "several" : read.length ? "never" : "none"], asked);
    }
    const [[series, number]] = found;
    const shown = SpanbookSerials.show(series, number);
    const runs = table.series[series[0]];
    if (!runs) return filled(table.words.for, shown, table.words["not-here"]);
    const at = ([first, last]) => inside([first, last], number);
    show(table, table.sheets[runs[1].find(at)[2]]);
    return filled(table.words.for, shown, table.lines[runs[0].find(at)[2]]);
  }

  async function begin() {
    place.querySelector("form").hidden = false;
    if (!asked) return;
    place.querySelector("input").value = asked;
    const [[, all], table] = await Promise.all([spanbookLoad("series"), spanbookLoad(place.dataset.sheet, "../sheet/")]);
    out.textContent = answer(table, all);
    out.hidden = false;
    place.dataset.done = asked;
  }

  begin();
})();
