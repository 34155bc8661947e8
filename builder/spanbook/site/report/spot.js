// One place of the machine: as recorded, this other one, or something else; with pictures and what there is to say.
"use strict";

const SpanbookSpot = (() => {
  const { NONE } = SpanbookPacket;
  const UNSURE = "?";
  const { filled, inside, make } = SpanbookPieces;

  function button(words, then, of = {}) {
    const made = make("button", words, { type: "button", ...of });
    made.addEventListener("click", then);
    return made;
  }

  function field(words, control) {
    const label = make("label", `${words} `);
    label.append(control);
    return label;
  }

  // What is recorded of a number at a place: from the works, and as fitted later. Of a worn number nothing alone.
  function recordedAt(runs, number) {
    const run = number === null ? null : runs.find((one) => inside(one, number));
    return run ? run.slice(2) : [[], [], ""];
  }

  // A place as the table of its series has it, and what was found there as the report keeps it; page: { words, root,
  // things, number, serial, changed, key, unshelved, part }.
  function box([path, title, , keyAddress, runs, here], found, page) {
    const { words } = page;
    const held = page.things[path] ?? [];
    const [works, later, why] = recordedAt(runs, page.number());
    const near = [...new Set([...later, ...here])].filter((i) => !works.includes(i));
    const far = [...held.keys()].filter((i) => !works.includes(i) && !near.includes(i));
    const whole = make("section", "", { className: "sb-spot", id: SpanbookMachine.line(`positions/${path}/`) });
    const taps = make("div", "", { className: "sb-taps" });
    const list = make("div", "", { className: "sb-things", hidden: true });
    const more = make("div", "", { className: "sb-with", hidden: true });
    taps.dataset.choices = "";
    const idOf = (i) => held[i][0];
    const titleOf = (id) => held.find(([one]) => one === id)?.[1] ?? id;
    const every = [...works, ...near, ...far];
    const head = make("h3", title);
    whole.append(head);

    // What is chosen, in a few words.
    function chosen() {
      if (found.of.length) return words["unsure-short"];
      return found.is === NONE ? words["none-short"] : titleOf(found.is);
    }

    function choose(value) {
      const unsure = value === UNSURE;
      const again = unsure ? found.of.length > 0 : found.is === value;
      found.is = again || unsure ? "" : value;
      found.of = unsure && !again ? every.map(idOf) : [];
      list.hidden = true;
      sync();
      taps.querySelector("[aria-pressed=true], button").focus({ preventScroll: true });
      page.changed();
    }

    const pressed = (value) => (value === UNSURE ? found.of.length > 0 : found.is === value);
    function choice(words_, value) {
      const made = button(words_, () => choose(value));
      made.setAttribute("aria-pressed", String(pressed(value)));
      return made;
    }

    // What alone is recorded stands in the heading: its button is short, and says it to who does not see the heading.
    function recorded(id) {
      if (works.length > 1) return choice(titleOf(id), id);
      const made = choice(words["as-recorded"], id);
      made.setAttribute("aria-label", filled(words["as-recorded-this"], titleOf(id)));
      return made;
    }

    function sync() {
      const is = found.of.length ? UNSURE : found.is;
      const known = works.map(idOf);
      const made = known.map(recorded);
      if (is && !known.includes(is)) made.push(choice(filled(words.this, chosen()), is));
      const open = button(words[known.length ? "else" : "what"], () => { list.hidden = !list.hidden; sync(); taps.querySelector("[aria-expanded]").focus(); });
      open.setAttribute("aria-expanded", String(!list.hidden));
      taps.replaceChildren(...made, open);
      if (!list.hidden) things();
      more.hidden = !is;
      if (is && !more.firstChild) more.append(SpanbookShots.box(found.pictures, shows, page), say());
      if (is) more.querySelector("[data-note-words]").textContent = `${words[found.is === NONE ? "note-none" : "note"]} `;
      if (found.is === NONE) more.querySelector("details").open = true;
    }

    const shows = () => filled(words.shown, title, page.serial(), chosen());

    // One thing that it may be, with its picture and what it is told by.
    function thing(i) {
      const [id, name, told, picture] = held[i];
      const made = choice("", id);
      made.className = "sb-thing";
      if (picture) made.append(SpanbookFind.small(page.root, picture).firstChild);
      const said = make("span");
      said.append(make("strong", name), ...told.map((one) => make("span", one, { className: "sb-quiet" })));
      made.append(said);
      return made;
    }

    function things() {
      list.replaceChildren(...near.map(thing));
      if (far.length) list.append(make("p", words.others, { className: "sb-quiet" }), ...far.map(thing));
      if (every.length > 1) list.append(choice(words.unsure, UNSURE));
      list.append(choice(words.none, NONE));
      if (keyAddress) {
        const link = make("a", words.key, { className: "sb-tap" });
        link.href = SpanbookFind.target(page.root, `${keyAddress}?serial=${encodeURIComponent(page.serial())}&report=1`);
        list.append(link);
      }
    }

    // The number that stands on it, a remark, and how this place looks.
    function say() {
      const box = make("details", "", { className: "sb-years sb-say" });
      const control = (key, of = {}) => {
        const made = make("input", "", { value: found[key], autocomplete: "off", maxLength: 200, ...of });
        made.addEventListener("input", () => { found[key] = made.value; page.changed(); });
        return made;
      };
      const told = make("div", "", { className: "sb-quiet" });
      told.setAttribute("role", "status");
      const number = control("number", { spellcheck: false, maxLength: 60 });
      number.addEventListener("input", () => page.part(number, told, found));
      const condition = make("select");
      condition.append(make("option", words.same, { value: "" }), ...Object.entries(words.looked).map(([value, said]) => make("option", said, { value })));
      condition.value = found.condition;
      condition.addEventListener("change", () => { found.condition = condition.value; page.changed(); });
      const note = make("label");
      const asks = make("span");
      asks.dataset.noteWords = "";
      note.append(asks, control("note"));
      box.append(make("summary", words.more), note, field(words.number, number), told, field(words.condition, condition));
      return box;
    }

    if (works.length === 1) {
      const [, name, , picture] = held[works[0]];
      head.append(make("span", ` ${name}`, { className: "sb-quiet" }));
      if (picture) whole.prepend(SpanbookFind.small(page.root, picture));
    }
    if (works.length > 1) whole.append(make("p", words["one-of"], { className: "sb-quiet" }));
    if (works.length === 0) whole.append(make("p", words[why || "blank"], { className: "sb-quiet" }));
    whole.append(taps, list, more);
    sync();
    return { whole, title, choose: (id) => { if (every.map(idOf).includes(id) && !pressed(id)) choose(id); } };
  }

  return { box };
})();
