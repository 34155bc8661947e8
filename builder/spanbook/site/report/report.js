// The report of one machine: begins with its number, keeps every tap, tells what lacks, and hands the packet over.
"use strict";

(() => {
  const place = document.querySelector("[data-report]");
  if (!place) return;
  const { dataset } = place;
  const words = JSON.parse(dataset.words);
  const part = (name) => place.querySelector(`[data-${name}]`);
  const { filled, make } = SpanbookPieces;
  const PAUSE = 200; // milliseconds after the last key before a number is looked up
  const RETRY = 4000; // milliseconds before tables are asked for again
  const MOST_MEANT = 3;
  const home = new URL(dataset.root, location.href).href;
  const reports = SpanbookReports(home, dataset.site);
  const asked = new URLSearchParams(location.search);
  const given = (name) => (asked.get(name) ?? "").trim().slice(0, 200);

  let report = reports.empty();
  let plate = null; // what its number reads as
  let shownFor = null; // the series and number that the places are shown for
  let spots = new Map();
  let aimed = false;

  const shown = () => plate?.shown ?? report.serial.trim();
  const keyOf = (id, of = report.id) => JSON.stringify([home, dataset.site, of, id]);

  function button(said, then, of = {}) {
    const made = make("button", said, { type: "button", ...of });
    made.addEventListener("click", then);
    return made;
  }

  const page = {
    part, words, reports, shown, key: keyOf,
    site: dataset.site, day: dataset.day, contact: dataset.contact, forge: dataset.forge, repository: dataset.repository, schema: dataset.schema,
    home, report: () => report, changed: () => { hand.changed(); tellState(); }, whole: SpanbookPacket.whole,
    // Nothing is told of a machine: what was written in forms leaves by itself.
    alone: () => !report.serial.trim() && SpanbookPacket.placesOf(report).length === 0 && page.beside.records().length > 0,
    take: (held) => { report = held; shownFor = null; hand.changed(); fillIn(); },
    leave: () => { location.search = "?new"; },
    over(how, said) {
      report.sent = { how, at: new Date().toISOString() };
      if (!page.alone()) reports.keep(report);
      part("told").textContent = said;
      page.beside.gone(report.sent);
      SpanbookOthers.show(page);
    },
  };
  page.beside = SpanbookBeside.attach(page);
  const hand = SpanbookHand.attach(page);
  const when = SpanbookWhen.attach(part, words, (date) => { report.date = date; changed(); });

  // --- keeping

  function warn(said) {
    part("store").textContent = said;
    part("store").hidden = !said;
  }

  function changed() {
    report.sent = null;
    if (report.serial.trim() || SpanbookPacket.placesOf(report).length) {
      const refused = reports.keep(report);
      if (refused) warn(words[refused]);
      else if ([words.full, words.forbidden].includes(part("store").textContent)) warn("");
    }
    hand.changed();
    tellState();
  }

  // --- the serial number

  async function readPlate() {
    const text = report.serial.trim();
    const found = text ? await SpanbookPlate.read(text, report.series) : null;
    if (text !== report.serial.trim()) return; // a later one has been typed meanwhile
    plate = found;
    tellPlate(text);
    if (text) history.replaceState(null, "", `${location.pathname}?serial=${encodeURIComponent(text)}${location.hash}`);
    await showPlaces();
    tellState();
  }

  function give(serial, series = "") {
    report.serial = serial;
    report.series = series;
    part("serial").value = serial;
    changed();
    readPlate();
  }

  function offered(before, choices) {
    const taps = make("div", "", { className: "sb-taps" });
    taps.append(make("span", before), ...choices);
    return taps;
  }

  function tellPlate(text) {
    const out = part("read");
    out.replaceChildren();
    const mine = SpanbookMine.shown();
    if (!text) {
      if (mine) out.append(offered(words.mine, [button(mine, () => give(mine))]));
      return;
    }
    if (!plate) { unloaded(out); return; }
    const { state, series, meant = [] } = plate;
    if (state === "one") out.append(make("p", filled(words.reads, plate.shown, series[3])));
    else if (state === "may-be") out.append(make("p", text + _(": ") + _n("one of {} machine.", "one of {} machines.", plate.count)));
    else if (state === "several") out.append(offered(filled(words.several, text), plate.of.map((one) => button(one[3], () => give(text, one[0])))));
    else if (state === "two") out.append(offered(words.two, meant.map((one) => button(one, () => give(one)))));
    else {
      out.append(make("p", filled(words[state], text), { className: "sb-wrong" }));
      if (meant.length) out.append(offered(words.meant, meant.map((one) => button(one, () => give(one)))));
    }
  }

  // Without a line nothing can be looked up: it is asked again by itself, and by hand.
  function unloaded(out) {
    out.append(make("p", words.unloaded), button(words.try, readPlate));
    setTimeout(() => { if (!plate && report.serial.trim()) readPlate(); }, RETRY);
  }

  // --- the places

  const EMPTY = () => ({ is: "", of: [], signs: [], note: "", condition: "", number: "", by: "", pictures: [] });

  async function showPlaces() {
    const out = part("places");
    const series = plate?.series;
    const at = series ? `${series[0]} ${plate.number}` : null;
    if (at === shownFor) return;
    if (!series) { out.replaceChildren(); spots = new Map(); shownFor = null; return; }
    const [table, things] = await Promise.all([`report-${series[0]}`, "things"].map((name) => spanbookLoad(name, "../report/")));
    if (!table || !things) { plate = null; tellPlate(report.serial.trim()); return; }
    shownFor = at;
    const page = {
      words, root: dataset.root, things, number: () => plate?.number ?? null, serial: shown, changed, key: keyOf,
      unshelved: () => warn(words.unshelved), part: tellNumber(table.owner),
    };
    let group = null;
    spots = new Map();
    out.replaceChildren();
    for (const entry of table.places) {
      if (entry[2] !== group) out.append(make("h3", (group = entry[2]), { className: "sb-quiet" }));
      report.places[entry[0]] ??= EMPTY();
      const spot = SpanbookSpot.box(entry, report.places[entry[0]], page);
      spots.set(entry[0], spot);
      out.append(spot.whole);
    }
    aim();
  }

  // A number read on a part: what it is here, whose it is, or that nobody knows it, with what may be meant.
  const tellNumber = (maker) => async (input, out, found) => {
    const wanted = input.value.trim();
    const rows = wanted.length > 1 ? ((await SpanbookRead.rows(wanted)) ?? []).filter(([, , address]) => address.startsWith("parts/")) : [];
    if (wanted !== found.number.trim()) return; // typed on meanwhile
    const sure = rows.find(([, , , itself]) => itself);
    const owner = sure?.[2].split("/")[1] ?? maker;
    found.by = owner === maker ? "" : owner;
    changed();
    const give = (number) => button(number, () => { input.value = number; input.dispatchEvent(new Event("input")); input.focus(); });
    const meant = () => (rows.length ? [offered(words.meant, rows.slice(0, MOST_MEANT).map(([title]) => give(title)))] : []);
    if (wanted.length < 2) out.textContent = "";
    else if (sure) out.textContent = filled(words.known, sure[0], sure[1]);
    else out.replaceChildren(filled(words.unknown, wanted), ...meant());
  };

  // --- what lacks

  function* lacking() {
    if (page.alone()) {
      if (!report.by.trim()) yield [words["lacks-by"], part("by")];
      return;
    }
    if (!report.serial.trim() || ["unread", "never", "two"].includes(plate?.state)) yield [words["lacks-serial"], part("serial")];
    if (plate?.state === "several") yield [words["lacks-series"], part("serial")];
    if (!report.condition) yield [words["lacks-condition"], part("condition").querySelector("button")];
    const told = SpanbookPacket.placesOf(report);
    if (told.length === 0) yield [words["lacks-places"], part("places").querySelector("button") ?? part("serial")];
    const titleOf = (path) => spots.get(path)?.title ?? path;
    for (const [path, { is, of, note }] of told) {
      const spot = spots.get(path)?.whole;
      if (!is && !of.length) yield [filled(words["lacks-what"], titleOf(path)), spot?.querySelector("button")];
      else if (is === SpanbookPacket.NONE && !note.trim()) yield [filled(words["lacks-what"], titleOf(path)), spot?.querySelector("[data-note-words] + input")];
    }
    if (!report.date) yield [words["lacks-date"], when.field()];
    else if (SpanbookDates.future(report.date, SpanbookWhen.today)) yield [words["lacks-future"], when.field()];
    if (!report.by.trim()) yield [words["lacks-by"], part("by")];
  }

  function tellState() {
    const lacks = [...lacking()];
    const out = part("lacks");
    part("ways").hidden = lacks.length > 0;
    if (lacks.length) {
      const list = make("ul");
      list.append(...lacks.map(([said, at]) => {
        const item = make("li");
        item.append(button(said, () => { at?.scrollIntoView({ block: "center" }); at?.focus(); }, { className: "sb-plain" }));
        return item;
      }));
      out.replaceChildren(make("p", words.lacks), list);
      return;
    }
    const told = SpanbookPacket.placesOf(report);
    const pictures = told.reduce((sum, [, found]) => sum + found.pictures.length, 0);
    if (page.alone()) out.replaceChildren();
    else out.replaceChildren(make("p", filled(words.ready, shown(), _n("{} place", "{} places", told.length), pictures ? _n("{} picture", "{} pictures", pictures) : words["no-pictures"])));
    hand.soon();
  }

  // --- what it begins with

  function fillIn() {
    part("serial").value = report.serial;
    part("by").value = report.by;
    part("note").value = report.note;
    for (const one of part("condition").children) one.setAttribute("aria-pressed", String(one.value === report.condition));
    when.show(report.date);
    SpanbookOthers.show(page);
    page.beside.show();
    return readPlate();
  }

  // The one that is begun for the number that was asked for; else a new one.
  function begun() {
    const serial = given("serial");
    const fold = (text) => SpanbookMatching.fold(text);
    const open = reports.all().map(([, held]) => held).filter((held) => held && !held.sent);
    const mine = serial ? open.find((held) => fold(held.serial) === fold(serial)) : asked.has("new") ? null : open[0];
    return mine ?? { ...reports.empty(), serial, date: SpanbookWhen.today, by: reports.by() };
  }

  // What the address says of one place, once: in sight, and what was found there if that is said.
  function aim() {
    const spot = spots.get(given("position"));
    if (!spot || aimed) return;
    aimed = true;
    const saw = asked.getAll("saw").map((one) => one.split(/:(.*)/s)).filter(([sign, seen]) => sign && seen);
    if (saw.length) report.places[given("position")].signs = saw.map(([sign, seen]) => ({ sign, seen }));
    if (saw.length) changed();
    if (given("is")) spot.choose(given("is"));
    spot.whole.scrollIntoView();
    spot.whole.classList.add("sb-aimed");
  }

  function attach() {
    let timer = 0;
    part("serial").addEventListener("input", () => {
      report.serial = part("serial").value;
      report.series = "";
      changed();
      clearTimeout(timer);
      timer = setTimeout(readPlate, PAUSE);
    });
    for (const [name, key] of [["by", "by"], ["note", "note"]]) part(name).addEventListener("input", () => { report[key] = part(name).value; changed(); });
    part("condition").addEventListener("click", ({ target }) => {
      if (!target.value) return;
      report.condition = report.condition === target.value ? "" : target.value;
      for (const one of part("condition").children) one.setAttribute("aria-pressed", String(one.value === report.condition));
      changed();
    });
    part("new").addEventListener("click", () => { location.search = "?new"; });
    addEventListener("online", () => { if (!plate) readPlate(); });
    addEventListener("storage", ({ key, newValue }) => { if (key === reports.nameOf(report.id) && newValue !== null) warn(words.elsewhere); });
  }

  async function begin() {
    attach();
    report = begun();
    part("live").hidden = false;
    place.classList.add("sb-live");
    await fillIn();
    place.dataset.begun = "";
  }

  begin();
})();
