// I found something else: what may have happened to a machine, looked up in a small table of each position.
"use strict";

(() => {
  const place = document.querySelector("[data-card]");
  const box = document.querySelector("[data-found]");
  if (!place || !box) return;
  const [where, what, how] = ["where", "what", "how"].map((name) => box.querySelector(`[data-${name}]`));
  const out = box.querySelector("[data-stories]");
  const load = (name) => spanbookLoad(name, "../card/");
  const { inside, make } = SpanbookPieces;
  const { link, sentence } = SpanbookPieces.linking(place.dataset.root);
  const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
  const FEW = 2; // stories of each thing before one is chosen
  const options = (list, choose) => [make("option", choose, { value: "" }), ...list.map(([value, words]) => make("option", words, { value }))];

  // Whoever weighed what may have happened has something to tell: the report begins with what was chosen.
  async function toReport(series, index) {
    const table = await load(series);
    const position = table.positions[Number(where.value)][2].replace(/^positions\//, "").replace(/\/$/, "");
    return link(index.words.tell, place.dataset.add, `?${new URLSearchParams({ serial: asked, position, is: what.value })}`);
  }

  const weighed = (index) => make("p", `${index.assumed[how.value]} ${index.words.alone}`, { className: "sb-quiet" });
  const likeliest = (table, can) => {
    const list = make("ol");
    list.append(...can.map(([share, line]) => sentence("li", table.lines[line], share ? share + _(": ") : "")));
    return list;
  };

  function render(index, table, told, report) {
    const [can, cannot] = table.told[told[how.value]];
    const impossible = make("ul");
    impossible.append(...cannot.map((line) => sentence("li", table.lines[line])));
    const tell = make("p");
    tell.append(report);
    const shown = [likeliest(table, can), tell];
    if (cannot.length) shown.push(make("p", index.words["ruled-out"]), impossible);
    out.replaceChildren(...shown, weighed(index));
  }

  // Nothing is chosen yet: the likeliest of each thing that may be found there; its name leads to all of it.
  function each(index, table, things, told) {
    const shown = things.flatMap(([id, title], i) => {
      const name = make("p");
      const choose = make("button", title, { type: "button", className: "sb-thing" });
      choose.addEventListener("click", () => {
        what.value = id;
        what.dispatchEvent(new Event("change"));
        what.focus();
      });
      name.append(choose);
      return [name, likeliest(table, table.told[told[i][how.value]][0].slice(0, FEW))];
    });
    out.replaceChildren(...shown, weighed(index));
  }

  async function answer(series, number, index) {
    out.replaceChildren();
    const asks = () => `${where.value} ${what.value} ${how.value}`;
    const now = asks();
    const own = series;
    const chosen = index.places.find(([i]) => String(i) === where.value);
    if (!chosen) return;
    // On a machine of several numbers each place says by which of them it is looked up.
    if (chosen.length > 3) [series, number] = chosen.slice(3);
    const table = await load(`${series}-found-${chosen[0]}`);
    const run = table?.runs.find((one) => inside(one, number));
    const at = chosen[2].findIndex(([id]) => id === what.value);
    const report = run && at >= 0 ? await toReport(own, index) : null;
    if (now !== asks()) return;
    if (report) render(index, table, run[2][at], report);
    else if (run) each(index, table, chosen[2], run[2]);
    box.dataset.done = now;
  }

  async function indexOf(series) {
    const index = await load(`${series}-found`);
    const unit = place.dataset.unit ? await load(`unit-${place.dataset.unit}`) : null;
    return index && unit ? { ...index, places: unit.places } : index;
  }

  async function open(series, number) {
    const index = await indexOf(series);
    if (!index || where.options.length) return;
    where.replaceChildren(...options(index.places, index.words.choose));
    what.replaceChildren(...options([], index.words.choose));
    where.addEventListener("change", () => {
      const chosen = index.places.find(([i]) => String(i) === where.value);
      what.replaceChildren(...options(chosen ? chosen[2] : [], index.words.choose));
      answer(series, number, index);
    });
    for (const choice of [what, how]) choice.addEventListener("change", () => answer(series, number, index));
  }

  // From a line of the card: its place is chosen; a place where nothing is weighed leads to the report at once.
  async function fromLine(event, series, number) {
    event.preventDefault();
    const position = new URL(event.target.href).searchParams.get("position");
    await open(series, number);
    const { positions } = await load(series);
    const at = positions.findIndex(([, , address]) => address === `positions/${position}/`);
    if (![...where.options].some(({ value }) => value === String(at))) { location.assign(event.target.href); return; }
    box.open = true;
    where.value = String(at);
    where.dispatchEvent(new Event("change"));
    box.scrollIntoView();
    what.focus();
  }

  // Only a number that is one machine's can be asked about.
  async function begin() {
    if (!asked) return;
    const [, all] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    if (found.length !== 1) return;
    const [[series, number]] = found;
    box.hidden = false;
    box.addEventListener("toggle", () => { if (box.open) open(series[0], number); });
    place.addEventListener("click", (event) => { if (event.target.matches(".sb-else")) fromLine(event, series[0], number); });
  }

  begin();
})();
