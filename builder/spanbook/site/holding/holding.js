// What am I holding? One thing to look at after another, each answered by a tap; what it may be stands above.
"use strict";

(() => {
  const place = document.querySelector("[data-holding]");
  if (!place) return;
  const part = (name) => place.querySelector(`[data-${name}]`);
  const { filled, inside, make } = SpanbookPieces;
  const { link } = SpanbookPieces.linking(place.dataset.root);
  const listed = (each, last) => (each.length < 2 ? each.join("") : `${each.slice(0, -1).join(", ")} ${last} ${each.at(-1)}`);
  const LISTED = 8; // what is less likely is folded
  const MARK = "_mark"; // no sign's id has such a letter
  const SIZE = "_size";
  const answers = new Map(); // by the places of signs and of their answers
  const weighed = { [MARK]: new Map(), [SIZE]: new Map() }; // rows by what was typed
  const skipped = new Set();
  const reporting = new URLSearchParams(location.search).has("report") && document.querySelector(".sb-head[data-position]") !== null;
  let key;
  let machine = null;

  // As `wording/grammar.py` writes a share, and never surer than is ever said.
  function share(value) {
    const stated = Math.min(value, key["most-sure"]);
    if (stated <= 0.005) return key.words.less;
    return stated >= 0.995 && stated !== 1 ? key.words.more : `${(stated * 100).toFixed(0)} %`;
  }

  // Whoever came from a report goes back with what he found it to be, and by which signs.
  function toReport(address) {
    const position = document.querySelector(".sb-head[data-position]").dataset.position;
    const serial = new URLSearchParams(location.search).get("serial") ?? "";
    const query = new URLSearchParams({ serial, position, is: address.split("/")[1] });
    for (const [sign, answer] of answers) {
      const [id, , , , , every] = key.signs[sign];
      if (every[answer] !== undefined) query.append("saw", `${id}:${every[answer]}`);
    }
    return link(key.words.report, key.report, `?${query}`);
  }

  const title = (thing) => (thing < key.things.length ? key.things[thing][0] : key.words.unrecorded);

  function grounds(thing) {
    const { agrees, against } = SpanbookHolding.grounds(key, answers, thing);
    const said = [];
    if (agrees.length) said.push(filled(key.words.agrees, listed(agrees.map(([sign]) => key.signs[sign][2]), key.words.and)));
    if (against.length) said.push(filled(key.words.against, listed(against.map(([sign, , shown]) => `${key.signs[sign][2]} (${shown})`), key.words.and)));
    return said.join(" ");
  }

  function line(held, thing) {
    const item = document.createElement("li");
    const name = thing < key.things.length ? link(title(thing), key.things[thing][1]) : make("span", title(thing));
    item.append(make("strong", share(held[thing])), " ", name);
    const said = grounds(thing);
    if (said) item.append(make("span", ` ${said}`, { className: "sb-quiet" }));
    if (reporting && thing < key.things.length) item.append(" ", toReport(key.things[thing][1]));
    return item;
  }

  function alike(told) {
    if (told.alike.length === 0) return "";
    const named = told.alike.slice(0, key["most-alike"]).map((one) => key.things[one][3]);
    const more = told.alike.length - named.length;
    if (more) named.push(more === 1 ? key.words.another : _n("{} other", "{} others", more));
    return filled(key.words.alike, key.things[told.likely[0]][3], listed(named, key.words.or));
  }

  function button(words, then, of = {}) {
    const made = make("button", words, { type: "button", ...of });
    made.addEventListener("click", then);
    return made;
  }

  function renderNext(told) {
    const next = told.looks.find(({ sign }) => !skipped.has(sign));
    const box = part("next");
    if (!next) {
      box.replaceChildren(make("p", key.signs.length ? key.words.enough : key.words["no-signs"], { tabIndex: -1 }));
      return;
    }
    const [, asks, , how, , every] = key.signs[next.sign];
    const taps = make("div", "", { className: "sb-taps" });
    const give = (answer) => () => { answers.set(next.sign, answer); turn(); };
    taps.append(...[...every, key.words.else].map((words, i) => button(words, give(i))),
      button(key.words.skip, () => { skipped.add(next.sign); turn(); }, { className: "sb-skip" }));
    box.replaceChildren(make("h2", asks, { id: "next", tabIndex: -1 }), make("p", how, { className: "sb-quiet" }), taps);
  }

  // A size is kept as `what=how long`.
  const apart = (typed) => [typed.slice(0, typed.indexOf("=")), typed.slice(typed.indexOf("=") + 1)];

  function renderSaid() {
    const list = part("said");
    const taken = (words, from, one) => {
      const item = document.createElement("li");
      item.append(button(words, () => { from.delete(one); turn(); }));
      return item;
    };
    list.replaceChildren(
      ...[...answers].map(([sign, answer]) => taken(key.signs[sign][1] + _(": ") + (key.signs[sign][5][answer] ?? key.words.else), answers, sign)),
      ...[...weighed[MARK].keys()].map((text) => taken(filled(key.words.mark, text), weighed[MARK], text)),
      ...[...weighed[SIZE].keys()].map((typed) => taken(filled(key.words.size, ...apart(typed)), weighed[SIZE], typed)),
    );
    list.closest("section").hidden = list.childElementCount + skipped.size === 0;
  }

  // What is likely, and always what nobody has recorded; the rest is folded.
  function renderLikely(told) {
    const near = told.likely.filter((thing, i) => i < LISTED || thing === key.things.length);
    const others = told.likely.filter((thing) => !near.includes(thing));
    const lines = (some) => some.map((thing) => line(told.held, thing));
    part("likely").replaceChildren(...lines(near));
    const rest = part("rest");
    rest.hidden = others.length === 0;
    rest.querySelector("summary").textContent = filled(key.words.rest, others.length);
    rest.querySelector("ol").replaceChildren(...lines(others));
  }

  function render() {
    const rows = [...weighed[MARK].values(), ...[...weighed[SIZE].values()].flat()];
    const told = SpanbookHolding.told(key, answers, machine, ...rows);
    const [first] = told.likely;
    const asked = answers.size + rows.length > 0 || machine !== null;
    place.classList.toggle("sb-asked", asked);
    const top = part("first");
    top.hidden = !asked;
    top.replaceChildren(key.words.first + _(": "), make("strong", share(told.held[first])), " ",
      first < key.things.length ? link(title(first), key.things[first][1]) : title(first));
    renderNext(told);
    renderLikely(told);
    const same = part("alike");
    same.textContent = asked ? alike(told) : "";
    renderSaid();
    remember();
  }

  // After a tap whoever goes by keys or by ear stands at what is asked next.
  function turn() {
    render();
    part("next").firstElementChild.focus({ preventScroll: true });
  }

  // What was tapped stands in the address, so that it can be sent to somebody, and is gone with the page.
  function remember() {
    const query = new URLSearchParams(location.search);
    for (const [id, , , , , every] of key.signs) {
      (key.former[id]?.[0] ?? []).forEach((name) => query.delete(name));
      const answer = answers.get(key.signs.findIndex(([one]) => one === id));
      if (answer === undefined) query.delete(id);
      else query.set(id, every[answer] ?? key.words.else);
    }
    for (const name of [MARK, SIZE]) {
      query.delete(name);
      for (const typed of weighed[name].keys()) query.append(name, typed);
    }
    const text = query.toString();
    history.replaceState(null, "", `${location.pathname}${text ? `?${text}` : ""}`);
    place.dataset.done = text;
  }

  // How many of all that is recorded anywhere read so is in the finder's tables.
  async function weighMark(text) {
    const read = SpanbookMatching.worn(text);
    if (read) weighed[MARK].set(text, SpanbookHolding.ofMark(key, read, (await SpanbookRead.turnedForms(read)).length));
  }

  function weighSize(typed) {
    const [what, text] = apart(typed);
    const lengths = SpanbookLengths.written(text);
    if (lengths.length) weighed[SIZE].set(typed, lengths.map((one) => SpanbookHolding.ofSize(key, what, one)));
    return lengths.length > 0;
  }

  // A form of the page that takes what is typed; what cannot be used stays, with why.
  function take(name, use) {
    const form = place.querySelector(`form[data-${name}]`);
    const input = form?.querySelector("input");
    form?.addEventListener("submit", async (event) => {
      event.preventDefault();
      const typed = input.value.trim();
      if (!typed || !(await use(typed, form))) return;
      input.value = "";
      turn();
    });
  }

  function listen() {
    take("mark", async (typed) => { await weighMark(typed); return true; });
    take("size", async (typed, form) => {
      const used = weighSize(`${form.querySelector("select").value}=${typed}`);
      form.querySelector("[role=status]").textContent = used ? "" : filled(key.words.unmeasured, typed);
      return used;
    });
    // The page is asked for anew with the machine's number, and what was seen so far stays.
    take("machine-of", async (typed) => {
      const query = new URLSearchParams(location.search);
      query.set("serial", typed);
      location.search = query;
    });
    part("again").addEventListener("click", () => {
      for (const one of [answers, skipped, ...Object.values(weighed)]) one.clear();
      turn();
    });
  }

  async function recall() {
    const query = new URLSearchParams(location.search);
    key.signs.forEach(([id, , , , , every], sign) => {
      const [formerly, reworded] = key.former[id] ?? [[], {}];
      const given = [id, ...formerly].map((name) => query.get(name)).find((one) => one !== null);
      const answer = [...every, key.words.else].findIndex((one) => one === given || one === reworded[given]);
      if (given !== undefined && answer >= 0) answers.set(sign, answer);
    });
    query.getAll(SIZE).forEach(weighSize);
    for (const text of query.getAll(MARK)) await weighMark(text);
  }

  // The machine that it is from: what its number tells, if it reads as one.
  async function of() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!asked) return;
    const note = part("machine");
    place.querySelector("[name=serial]").value = asked;
    const [, all] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    note.hidden = false;
    if (found.length !== 1) {
      note.textContent = filled(key.words.unread, asked);
      return;
    }
    const [[series, number]] = found;
    const shown = SpanbookSerials.show(series, number);
    const runs = key.machines.series[series[0]];
    if (runs) machine = key.machines.rows[runs.find((run) => inside(run, number))[2]];
    note.textContent = filled(key.words[runs ? "for" : "not-here"], shown);
  }

  async function begin() {
    key = await spanbookLoad(place.dataset.holding, "../holding/");
    if (!key) return;
    await recall();
    await of();
    listen();
    place.querySelector("[data-live]").hidden = false;
    render();
  }

  begin();
})();
