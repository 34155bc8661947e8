// The machine card: what is known of a number's machine at every position, looked up in its series' tables.
"use strict";

(() => {
  const place = document.querySelector("[data-card]");
  if (!place) return;
  const root = place.dataset.root;
  const MOST_PICTURES = 3; // of a position
  const WIDE = "(min-width: 45em)"; // where every position is open from the start

  const { filled, make } = SpanbookPieces;
  const { link, sentence } = SpanbookPieces.linking(root);
  const { load, of: machineOf } = SpanbookMachine;

  // What an open position tells of, in small, each picture leading to its page.
  async function illustrate(box, table, row) {
    const pictures = (await load(`${table.series[1].split("/")[1]}-pictures`))?.[row.address] ?? {};
    const named = row.sections.flatMap(([, lines]) => lines).flat().filter(Array.isArray).map(([, address]) => address.split("#")[0]);
    const shown = [...new Set(named)].filter((address) => pictures[address]).slice(0, MOST_PICTURES);
    if (!shown.length) return;
    const strip = make("div", "", { className: "sb-thumbs" });
    strip.append(...shown.map((address) => {
      const leads = link("", address);
      leads.tabIndex = -1;
      leads.setAttribute("aria-hidden", "true"); // the words beside it lead there too
      leads.append(SpanbookFind.small(root, pictures[address]));
      return leads;
    }));
    box.querySelector("dl").before(strip);
  }

  function renderRow(table, row) {
    const box = make("details", "", { className: "sb-place", open: matchMedia(WIDE).matches });
    // Of several machines on one card the first has the addresses of lines.
    const id = SpanbookMachine.line(row.address);
    if (!document.getElementById(id)) box.id = id;
    const [word, meaning] = table.known[row.known] ?? [table.words.differs, ""];
    const summary = document.createElement("summary");
    const answer = document.createElement("span");
    answer.append(make("span", row.short, { className: "sb-short" }), " ", make("span", word, { className: `sb-state sb-state-${row.known}`, title: meaning }));
    summary.append(make("span", row.title, { className: "sb-where" }), " ", answer);
    const list = document.createElement("dl");
    for (const [heading, lines] of row.sections) {
      const told = make("div", "", { className: heading === table.words.tell ? "sb-told-by-eye" : "" });
      told.append(make("dt", heading), ...lines.map((said) => sentence("dd", said)));
      list.append(told);
    }
    const more = make("p", "", { className: "sb-more" });
    more.append(link(filled(table.words.place, row.title), row.address));
    const position = row.address.replace(/^positions\//, "").replace(/\/$/, "");
    const serial = new URLSearchParams(location.search).get("serial") ?? "";
    if (row.key) more.append(" ", link(table.words.holding, row.key, `?serial=${encodeURIComponent(serial)}`));
    more.append(" ", Object.assign(link(table.words.found, place.dataset.add, `?${new URLSearchParams({ serial, position })}`), { className: "sb-else" }));
    box.append(summary, more, list);
    box.addEventListener("toggle", () => illustrate(box, table, row), { once: true });
    return box;
  }

  function renderRows(table, rows) {
    const body = make("div", "", { className: "sb-card" });
    const contents = [];
    let group = null;
    for (const row of rows) {
      const box = renderRow(table, row);
      if (row.group !== group) {
        group = row.group;
        body.append(make("h3", group));
        contents.push([group, box.id]);
      }
      body.append(box);
    }
    if (contents.length > 1 && contents.every(([, id]) => id)) body.prepend(renderContents(table, contents));
    pictureRows(table, rows, body);
    return body;
  }

  // What stays in reach: the groups of places, and the box for another number.
  function renderContents(table, groups) {
    const list = document.createElement("ul");
    const entry = (text, address, then) => {
      const item = document.createElement("li");
      const leads = make("a", text, { href: address });
      if (then) leads.addEventListener("click", then);
      item.append(leads);
      list.append(item);
    };
    for (const [group, id] of groups) entry(group, `#${id}`);
    entry(table.words.look, "#", (event) => {
      event.preventDefault();
      scrollTo(0, 0);
      document.querySelector("form[data-finder] input").focus();
    });
    const bar = make("nav", "", { className: "sb-contents sb-reach" });
    bar.setAttribute("aria-label", table.words.contents);
    bar.append(list);
    return bar;
  }

  // On a closed row the first thing that its answer names, in small; its room is kept from the start.
  async function pictureRows(table, rows, body) {
    const every = (await load(`${table.series[1].split("/")[1]}-pictures`)) ?? {};
    const boxes = body.querySelectorAll(".sb-place");
    rows.forEach((row, i) => {
      const pictures = every[row.address] ?? {};
      const named = row.sections.flatMap(([, lines]) => lines).flat().filter(Array.isArray);
      const shown = named.filter(([text]) => row.short.includes(text)).map(([, address]) => address.split("#")[0]).find((address) => pictures[address]);
      if (!shown) return;
      const image = SpanbookFind.small(root, pictures[shown]).firstChild;
      image.classList.add("sb-in-row");
      boxes[i].querySelector("summary").append(image);
    });
  }

  // For a forum: the same in three spellings, each with the permanent address, the date and the release.
  function spellings(shown, head, rows, known) {
    const address = `${place.dataset.canonical || location.href.split("?")[0]}?serial=${encodeURIComponent(shown).replace(/%20/g, "+")}`;
    const foot = `${address} (${new Date().toISOString().slice(0, 10)}, ${place.dataset.release})`;
    const lines = rows.map((row) => [row.title, known[row.known][0], row.short]);
    return {
      plain: [head, ...lines.map(([a, b, c]) => `${a}${_(": ")}${c} (${b})`), foot].join("\n"),
      markdown: [`**${head}**`, "", "| | | |", "| --- | --- | --- |", ...lines.map((l) => `| ${l.map((t) => t.replaceAll("|", "\\|")).join(" | ")} |`), "", foot].join("\n"),
      bbcode: [`[b]${head}[/b]`, "[list]", ...lines.map(([a, b, c]) => `[*]${a}${_(": ")}${c} (${b})`), "[/list]", foot].join("\n"),
    };
  }

  function renderQuestions(table, open) {
    const list = document.createElement("ul");
    for (const one of open) list.append(sentence("li", [one]));
    list.append(sentence("li", [[table.words["all-questions"], table["all-questions"]]]));
    const box = make("section", "", { className: "sb-open" });
    box.append(make("h3", table.words.questions), list);
    return box;
  }

  async function renderOne(out, series, table, number, shown, alone) {
    renderMachine(out, table, await machineOf(series, table, number), shown, alone);
  }

  function renderMachine(out, table, machine, shown, alone) {
    document.title = document.title.replace(/^[^·]*/, () => `${shown} `);
    const { rows, questions } = machine;
    const looks = [...machine.looks, ...machine.perhaps];
    if (looks.length === 0) looks.push([table.words["not-seen"]]);
    const head = filled(machine.head, shown);
    place.dataset.unit = machine.unit ?? "";
    const where = make("p", "", { className: "sb-series" });
    where.append(link(...table.series));
    if (alone) place.querySelector("h2").textContent = head;
    else out.append(make("p", head, { className: "sb-answer" }));
    out.append(...[...machine.known, ...looks].map((said) => Object.assign(sentence("p", said), { className: "sb-look" })), renderRows(table, rows), where);
    if (questions.length) out.append(renderQuestions(table, questions));
    const of = `?serial=${encodeURIComponent(shown)}`;
    for (const add of place.querySelectorAll("[data-add-to]")) add.href = link("", place.dataset.add, of).href;
    const plan = place.querySelector("[data-to-plan] a");
    if (plan) plan.href = link("", "plan/", of).href;
    place.querySelector("[data-ways]").hidden = !alone;
    SpanbookCopies.attach(place.querySelector("[data-copies]"), () => spellings(shown, head, rows, table.known));
  }

  // Numbers that were given together: one machine's, if nothing speaks against it, else each by itself.
  async function renderWay(out, way, alone) {
    const parts = await Promise.all(way.map(async ([series, number]) => {
      const table = await load(series[0]);
      const machine = await machineOf(series, table, number);
      return { table, machine, shown: SpanbookSerials.show(series, number), id: machine.unit ?? `${series[0]} ${number}`, plates: machine.plates ?? [series[5]] };
    }));
    const shown = SpanbookSerials.shownOf(way);
    const kept = parts.filter((one, i) => parts.findIndex(({ id }) => id === one.id) === i);
    const why = SpanbookTogether.apart(way, parts, kept);
    const { table, machine } = kept[0];
    const words = await load("several");
    if (why) {
      out.append(make("p", filled(words[`apart-${why}`], shown)));
      for (const one of parts) renderMachine(out, one.table, one.machine, one.shown, false);
    } else if (kept.length === 1) renderMachine(out, table, machine, parts[0].shown, alone);
    else renderMachine(out, table, SpanbookTogether.composed(table, words, kept, shown), shown, alone);
  }

  // Where several numbers differ a row lists all that it may be, but for the odds, which are one number's.
  function together(table, each) {
    const [first] = each;
    if (each.every((one) => JSON.stringify(one) === JSON.stringify(first))) return first;
    const sections = new Map();
    for (const [heading, lines] of each.flatMap((row) => row.sections)) {
      if (heading === table.words.odds) continue;
      if (!sections.has(heading)) sections.set(heading, new Map());
      for (const said of lines) sections.get(heading).set(JSON.stringify(said), said);
    }
    const known = each.every((row) => row.known === first.known && row.short === first.short) ? first.known : "differs";
    const short = known === "differs" ? "" : first.short;
    return { ...first, known, short, sections: [...sections].map(([heading, lines]) => [heading, [...lines.values()]]) };
  }

  // What several numbers have in common.
  async function renderCommon(out, series, table, readings, show) {
    const all = await Promise.all(readings.map(async ([, number]) => (await machineOf(series, table, number)).rows));
    const list = make("p", "");
    readings.forEach(([, number], i) => list.append(i ? ", " : "", make("a", show(number), { href: `?serial=${encodeURIComponent(show(number))}` })));
    out.append(list, renderRows(table, all[0].map((_, i) => together(table, all.map((rows) => rows[i])))));
  }

  // The numbers that it may be besides, and why, each with a way to its own card.
  function renderOthers(why, others, classes = "") {
    const line = make("p", `${why} `, { className: classes });
    others.map(([one, number]) => SpanbookSerials.show(one, number)).forEach((shown, i) => {
      line.append(i ? ", " : "", make("a", shown, { href: `?serial=${encodeURIComponent(shown)}` }));
    });
    return line;
  }

  async function render() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!asked) { place.dataset.done = ""; return; }
    place.querySelector("input").value = asked;
    place.classList.add("sb-asked");
    const out = place.querySelector("[data-out]");
    out.replaceChildren();
    const [sentences, all, retired] = (await spanbookLoad("series")) ?? [{}, [], []];
    const found = SpanbookSerials.readings(all, asked);
    const past = SpanbookSerials.readings(retired, asked).filter(([, , was]) => was);
    const say = (name) => filled(place.dataset[name], asked);
    place.querySelector("h2").textContent = asked;
    const worn = asked.includes("?") ? [] : SpanbookSerials.wornTo(all, asked);
    const ways = SpanbookSerials.together(all, asked);
    for (const way of ways) await renderWay(out, way, ways.length === 1);
    for (const [one, number] of past) {
      const line = make("p", "");
      line.append(link(SpanbookSerials.show(one, number), `series/${one[0]}/`), ` ${filled(sentences.retired, one[3])}`);
      out.append(line);
    }
    if (found.length + past.length + worn.length + ways.length === 0) {
      const loose = SpanbookSerials.loosely(all, asked);
      out.append(loose.length ? renderOthers(place.dataset.loose, loose) : make("p", say("unread")));
    }
    for (const series of new Set(found.map(([one]) => one))) {
      const readings = found.filter(([one, , was]) => one === series && was);
      const show = (number) => SpanbookSerials.show(series, number);
      const table = await load(series[0]);
      if (readings.length === 0) {
        const line = make("p", `${say("never")} `);
        line.append(link(...table.series));
        out.append(line);
      } else if (readings.length === 1) {
        await renderOne(out, series, table, readings[0][1], show(readings[0][1]), found.filter(([, , was]) => was).length === 1);
      } else {
        out.append(make("p", say("several")));
        await renderCommon(out, series, table, readings, show);
      }
    }
    if (worn.length) out.append(renderOthers(place.dataset.worn, worn, "sb-quiet sb-worn"));
    place.dataset.done = asked;
    showLine();
  }

  // The line that an address leads to is opened and in sight.
  function showLine() {
    const line = location.hash.length > 1 ? document.getElementById(decodeURIComponent(location.hash.slice(1))) : null;
    if (!line?.matches(".sb-place")) return;
    document.querySelector(".sb-aimed")?.classList.remove("sb-aimed");
    line.classList.add("sb-aimed"); // it was not there when the address was read, so that :target misses it
    line.open = true;
    line.scrollIntoView();
  }

  addEventListener("hashchange", showLine);
  addEventListener("beforeprint", () => document.querySelectorAll(".sb-place").forEach((box) => { box.open = true; }));
  render();
})();
