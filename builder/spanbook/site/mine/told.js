// What every page says of the reader's own machine: what it has at the page's position, and where it is on a strip.
"use strict";

(() => {
  const { make } = SpanbookPieces;
  const finder = document.querySelector("form[data-finder]");
  if (!finder) return;
  const { root } = finder.dataset;
  const own = make("a");
  const here = make("span", "", { className: "sb-mine-here" });
  const forget = make("button", _("Forget"), { type: "button", title: _("It is kept on this device only") });
  const bar = make("section", "", { className: "sb-mine sb-across", hidden: true });
  const keep = document.querySelector("[data-mine-keep]");
  const card = (serial, anchor = "") => SpanbookFind.target(root, `card/?serial=${encodeURIComponent(serial)}${anchor}`);

  // What the position of this page has on it, leading to that line of its card.
  async function tellPosition([series, number], serial) {
    const path = document.querySelector(".sb-head[data-position]")?.dataset.position;
    const table = path && await SpanbookMachine.load(series[0]);
    if (!table) return;
    const row = (await SpanbookMachine.of(series, table, number)).rows.find(({ address }) => address === `positions/${path}/`);
    if (!row) return;
    const told = `${row.title}${_(": ")}${row.short} (${table.known[row.known][0]})`;
    here.replaceChildren(". ", make("a", told, { href: card(serial, `#${SpanbookMachine.line(row.address)}`) }));
  }

  // How many numbers stand before one: all of them, or where numbers begin again, those that were issued.
  function before(number, { first, last, counted }, runs) {
    const end = Math.min(Math.max(number, Number(first)), Number(last) + 1);
    if (counted === undefined) return end - Number(first);
    return runs.reduce((sum, [from, to]) => sum + Math.max(0, Math.min(to ?? Infinity, end - 1) - Math.max(from, Number(first)) + 1), 0);
  }

  const drawn = (name, of, words = "") => {
    const made = document.createElementNS("http://www.w3.org/2000/svg", name);
    for (const [key, value] of Object.entries(of)) made.setAttribute(key, value);
    made.textContent = words;
    return made;
  };

  // A mark where it stands on every strip of its series.
  function mark([[id, , runs], number], serial) {
    for (const chart of document.querySelectorAll(`.sb-chart[data-series="${CSS.escape(id)}"]`)) {
      const { dataset } = chart;
      const whole = before(Number(dataset.last) + 1, dataset, runs);
      const x = `${((before(number, dataset, runs) + 0.5) * 100 / whole).toFixed(2)}%`;
      for (const strip of chart.querySelectorAll(".sb-bars")) {
        const made = drawn("g", { class: "sb-mine-mark" });
        made.append(drawn("title", {}, serial), drawn("line", { x1: x, x2: x, y1: 0, y2: 26, class: "sb-mine-under" }), drawn("line", { x1: x, x2: x, y1: 0, y2: 26 }));
        strip.append(made);
      }
    }
  }

  async function tell() {
    let serial = SpanbookMine.shown();
    bar.hidden = !serial;
    here.replaceChildren();
    document.querySelectorAll(".sb-mine-mark").forEach((made) => made.remove());
    if (!serial) return;
    own.textContent = serial;
    own.href = card(serial);
    const reading = await SpanbookMine.reading();
    if (reading && SpanbookMine.shown() === serial) {
      serial = SpanbookSerials.show(...reading);
      SpanbookMine.keep(serial); // as its plate has it, however it was typed
      own.textContent = serial;
      mark(reading, serial);
      await tellPosition(reading, serial);
    }
    bar.dataset.done = serial;
  }

  // On a card of another machine it can be said that this one is the reader's.
  async function offer() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!keep || !asked) return;
    const table = await spanbookLoad("series");
    const found = table ? SpanbookSerials.readings(table[1], asked).filter(([, , issued]) => issued) : [];
    if (found.length !== 1) return;
    const shown = SpanbookSerials.show(...found[0].slice(0, 2));
    keep.hidden = SpanbookMine.shown() === shown;
    keep.querySelector("button").onclick = () => { SpanbookMine.keep(shown); keep.hidden = true; tell(); };
  }

  forget.addEventListener("click", () => {
    SpanbookMine.forget();
    tell();
    offer();
    finder.querySelector("input").focus();
  });
  document.querySelector(".sb-ask")?.addEventListener("submit", ({ target }) => SpanbookMine.given(target.serial.value.trim()));
  const line = make("p");
  line.append(_("My machine:"), " ", own, here);
  bar.setAttribute("aria-label", _("My machine"));
  bar.dataset.mine = "";
  bar.append(line, forget);
  finder.after(bar);
  tell();
  offer();
})();
