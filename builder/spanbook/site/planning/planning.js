// A conversion planned on the page: what the machine has and what is wanted on it are chosen, and the plan follows.
"use strict";

(() => {
  const place = document.querySelector("[data-plan]");
  if (!place) return;
  const part = (name) => place.querySelector(`[data-${name}]`);
  const { counted, filled, make } = SpanbookPieces;
  const { link, sentence } = SpanbookPieces.linking(place.dataset.root);
  const READY = ["latest", "works"]; // goals that name no assembly
  let words;
  let world;
  let left; // what the machine left the works with
  let shown; // its number
  const wishes = new Map(); // by position, or one that is ready-made
  const known = new Map(); // what is said to be otherwise than it left the works: null where it is not known

  const assembly = (id) => world.table.assemblies[id];
  const title = (path) => world.table.positions[path][0];
  const amount = (steps, parts) => `${counted(words.steps, steps)}, ${counted(words["new-parts"], parts)}.`;
  const named = (number, quantity) => `${quantity} × ${world.table.parts[number][0]}`;

  function holds() {
    const held = new Map([...left, ...known]);
    return new Map([...held].filter(([, id]) => id !== null));
  }

  function wanted(held) {
    if (wishes.has("works")) return left;
    return wishes.has("latest") ? SpanbookPlans.latest(world, held) : wishes;
  }

  // Everything that may be at a position of this machine, each place with its title.
  function choices() {
    const every = Object.entries(world.table.assemblies);
    const own = Object.entries(world.table.positions).filter(([path, [, , housing, , mine]]) => mine || (housing && left.has(housing[0])));
    return own.map(([path]) => [path, every.filter(([, one]) => one[3] === path)]).filter(([, each]) => each.length);
  }

  const option = (text, value, selected = false) => make("option", text, { selected, value });

  function renderWish() {
    const select = part("want");
    const goals = READY.map((name) => option(words[name], name));
    const groups = choices().map(([path, each]) => {
      const group = Object.assign(document.createElement("optgroup"), { label: title(path) });
      group.append(...each.map(([id, [text]]) => option(text, id)));
      return group;
    });
    select.replaceChildren(option(words.choose, ""), ...goals, ...groups);
    part("wishes").replaceChildren(...[...wishes].map(([path, id]) => {
      const text = READY.includes(id) ? words[id] : filled(words.for, title(path), assembly(id)[0]);
      const button = make("button", `${text} ×`, { type: "button" });
      button.setAttribute("aria-label", filled(words["take-back"], text));
      button.addEventListener("click", () => { wishes.delete(path); turn(); select.focus(); });
      const item = document.createElement("li");
      item.append(button);
      return item;
    }));
  }

  function renderHave() {
    const held = holds();
    const isThere = ([path]) => world.there((at) => held.get(at) ?? null, path) !== false; // what is around it may have no such place
    part("have").replaceChildren(...choices().filter(isThere).map(([path, each]) => {
      const label = make("label", `${title(path)} `);
      const select = document.createElement("select");
      const works = left.get(path);
      const now = known.has(path) ? known.get(path) : works ?? null;
      select.append(option(words.else, "", now === null), ...each.map(([id, [text]]) => option(id === works ? filled(words.left, text) : text, id, now === id)));
      select.addEventListener("change", () => {
        const id = select.value || null;
        if (id === (works ?? null)) known.delete(path);
        else known.set(path, id);
        turn();
      });
      label.append(select);
      return label;
    }));
    const told = [...known].map(([path, id]) => filled(words.for, title(path), id === null ? words.else : assembly(id)[0]));
    part("now").textContent = told.length ? filled(words["says-otherwise"], told.join(_("; "))) : words["as-left"];
  }

  // What is said of a step, line by line: text, or text with a part in it that leads on.
  function linesOf(step) {
    const [, keeps, takes, also] = step.lines;
    const [, gets] = step.told;
    const parts = [...gets, ...keeps].map(([[before, one, after], address]) => [before, [one, address], after]);
    return [...parts, ...[...takes, ...also, ...[...step.advice, ...step.needs].map(({ said }) => said[1])].map((line) => [line])];
  }

  function renderStep(step) {
    const item = document.createElement("li");
    const list = document.createElement("ul");
    const [word, , , , cautions] = step.lines;
    list.append(...linesOf(step).map((said) => sentence("li", said)));
    const head = make("strong", "");
    head.append(link(step.told[0], step.address));
    item.append(head, make("p", word, { className: "sb-quiet" }), list);
    if (cautions.length) {
      const box = make("p", "", { className: "sb-caution" });
      cautions.forEach((one, i) => box.append(i ? ", " : "", link(...one)));
      item.append(box);
    }
    return item;
  }

  function renderSteps(steps) {
    const list = make("ol", "", { className: "sb-steps" });
    list.append(...steps.map(renderStep));
    return list;
  }

  function refusal(found) {
    const name = assembly(found.wanted)[2];
    const lines = [filled(words[found.why], ...(found.why === "gave-up" ? [found.states] : []), name)];
    if (found.need) lines.push(found.need[1].said[found.why === "need-broken" ? 3 : 2]);
    if (found.unknown) lines.push(filled(words["not-known"], title(found.unknown)));
    return lines;
  }

  const then = (steps) => steps.map(({ told: [text] }) => text).join(words.then);

  // What is said after the steps.
  function restOf({ advised, left: missing, more, others }) {
    return [
      ...advised.map(([, need]) => need.said[4]),
      ...missing.map(([path, number, quantity]) => filled(words["ends-without"], title(path), named(number, quantity))),
      ...others.map(({ steps }) => filled(words["as-cheap"], then(steps))),
      ...(more ? [words.more] : []),
    ];
  }

  function backOf(found, back) {
    if (!back) return [];
    const before = words[found.left.length ? "back-whole" : "back"];
    return [`${before} ${back.why ? refusal(back).join(" ") : `${amount(back.steps.length, back.parts)} ${then(back.steps)}.`}`];
  }

  const shopping = ({ steps }) => steps.flatMap((step) => step.told[1].map(([, , order]) => order));

  function renderShopping(lines) {
    const list = make("ul", "", { className: "sb-shopping" });
    list.append(...lines.map((order) => {
      const item = document.createElement("li");
      const label = document.createElement("label");
      label.append(make("input", "", { type: "checkbox" }), ` ${order}`);
      item.append(label);
      return item;
    }));
    return [make("h2", words.shopping, { id: "shopping" }), list];
  }

  function renderFound(found, back) {
    const paragraphs = (lines) => lines.map((line) => make("p", line));
    if (found.why) {
      const [first, ...rest] = refusal(found);
      const list = document.createElement("ul");
      list.append(...found.missing.map(([number, quantity]) => {
        const item = document.createElement("li");
        item.append(link(named(number, quantity), world.table.parts[number][1]));
        return item;
      }));
      part("first").textContent = first;
      part("out").replaceChildren(...paragraphs(rest), ...(found.missing.length ? [make("p", words["to-find"]), list] : []));
      return;
    }
    part("first").textContent = found.steps.length ? amount(found.steps.length, found.parts) : words[wishes.has("latest") ? "no-further" : "nothing"];
    if (!found.steps.length) return part("out").replaceChildren();
    const rules = make("p", place.dataset.rules, { className: "sb-quiet" });
    const tail = paragraphs([...restOf(found), ...backOf(found, back)]);
    if (back?.steps?.length) {
      const more = document.createElement("details");
      more.append(make("summary", tail.pop().textContent), renderSteps(back.steps));
      tail.push(more);
    }
    const lines = shopping(found);
    part("out").replaceChildren(rules, renderSteps(found.steps), ...tail, ...(lines.length ? renderShopping(lines) : []));
  }

  // The same for a forum or a pocket, in its own words.
  function spellings(found, back) {
    const { escaped } = SpanbookCopies;
    const goal = [...wishes].map(([path, id]) => (READY.includes(id) ? words[id] : filled(words.for, title(path), assembly(id)[0]))).join(_("; "));
    const head = shown + _(": ") + goal;
    const canonical = document.querySelector("link[rel=canonical]")?.href ?? location.href.split(/[?#]/)[0];
    const foot = [`${canonical}${location.search}`, [document.querySelector("[data-as-of]")?.textContent.trim(), document.querySelector("[data-release]").dataset.release].filter(Boolean).join(" ")];
    const now = words.have + _(": ") + part("now").textContent;
    const text = (said) => said.map((one) => (typeof one === "string" ? one : one[0])).join("");
    const steps = (found.steps ?? []).map((step) => [step.told[0], [step.lines[0], ...linesOf(step).map(text), ...step.lines[4].map(([one]) => one)]]);
    const rest = found.why ? [...refusal(found).slice(1), ...(found.missing.length ? [words["to-find"], ...found.missing.map(([number, quantity]) => named(number, quantity))] : [])] : [...restOf(found), ...backOf(found, back)];
    const buy = found.why ? [] : shopping(found);
    const first = part("first").textContent;
    const plainSteps = steps.flatMap(([name, lines], i) => [`${i + 1}. ${name}`, ...lines.map((line) => `   ${line}`)]);
    return {
      plain: [head, now, first, ...plainSteps, ...rest, ...(buy.length ? ["", words.shopping, ...buy.map((line) => `[ ] ${line}`)] : []), "", ...foot].join("\n"),
      markdown: [`**${escaped(head)}**`, "", escaped(now), "", escaped(first), "", ...steps.flatMap(([name, lines], i) => [`${i + 1}. **${escaped(name)}**`, ...lines.map((line) => `   - ${escaped(line)}`)]), "", ...rest.flatMap((line) => [escaped(line), ""]), ...(buy.length ? [`**${escaped(words.shopping)}**`, "", ...buy.map((line) => `- [ ] ${escaped(line)}`), ""] : []), `<${foot[0]}>`, "", `*${escaped(foot[1])}*`].join("\n"),
      bbcode: [`[b]${head}[/b]`, now, first, ...(steps.length ? ["[list=1]", ...steps.map(([name, lines]) => `[*][b]${name}[/b]\n${lines.join("\n")}`), "[/list]"] : []), ...rest, ...(buy.length ? [`[b]${words.shopping}[/b]`, "[list]", ...buy.map((line) => `[*]${line}`), "[/list]"] : []), `[url]${foot[0]}[/url]`, `[i]${foot[1]}[/i]`].join("\n"),
    };
  }

  // What was chosen stands in the address, so that the plan can be sent to somebody.
  function remember() {
    const query = new URLSearchParams({ serial: shown });
    for (const id of wishes.values()) query.append("want", id);
    for (const [path, id] of known) query.append(id === null ? "unknown" : "have", id ?? path);
    history.replaceState(null, "", `${location.pathname}?${query}`);
    place.dataset.done = String(query);
  }

  function recall() {
    const query = new URLSearchParams(location.search);
    for (const id of query.getAll("want")) wish(id);
    for (const path of query.getAll("unknown")) if (path in world.table.positions) known.set(path, null);
    for (const id of query.getAll("have")) if (assembly(id)) known.set(assembly(id)[3], id);
    for (const [path, id] of known) if ((left.get(path) ?? null) === id) known.delete(path);
  }

  // One thing is wanted at a position; a ready-made goal is wanted alone.
  function wish(id) {
    if (READY.includes(id)) wishes.clear();
    else READY.forEach((name) => wishes.delete(name));
    if (READY.includes(id)) wishes.set(id, id);
    else if (assembly(id)) wishes.set(assembly(id)[3], id);
  }

  function turn() {
    renderWish();
    renderHave();
    remember();
    part("copies").hidden = wishes.size === 0;
    part("first").hidden = wishes.size === 0;
    if (!wishes.size) return part("out").replaceChildren();
    const held = holds();
    const found = SpanbookPlans.convert(world, held, wanted(held));
    const back = found.why ? null : SpanbookPlans.wayBack(world, held, found);
    renderFound(found, back);
    SpanbookCopies.attach(part("copies"), () => spellings(found, back));
  }

  async function of(asked) {
    const [, all] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookSerials.readings(all, asked).filter(([, , issued]) => issued);
    const note = part("machine");
    note.hidden = false;
    part("live").hidden = true;
    if (found.length !== 1) {
      note.textContent = filled(place.dataset.unread, asked);
      place.dataset.done = asked;
      return;
    }
    const [[series, number]] = found;
    const table = await spanbookLoad(`plan-${series[0]}`, "../planning/");
    words = table.words;
    if (!table.conversions.length) {
      note.textContent = `${SpanbookSerials.show(series, number)}. ${words["none-here"]}`;
      place.dataset.done = asked;
      return;
    }
    world = SpanbookSteps.world(table, number);
    left = SpanbookPlans.works(world);
    shown = SpanbookSerials.show(series, number);
    note.textContent = "";
    note.append(link(shown, "card/", `?serial=${encodeURIComponent(shown)}`), world.steps.length ? "" : `. ${words["not-for-it"]}`);
    wishes.clear();
    known.clear();
    recall();
    part("live").hidden = false;
    turn();
  }

  function begin() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? SpanbookMine.shown()).trim();
    const form = place.querySelector("form");
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      of(form.serial.value.trim());
    });
    part("want").addEventListener("change", ({ target }) => { wish(target.value); turn(); });
    form.serial.value = asked;
    if (asked) of(asked);
  }

  begin();
})();
