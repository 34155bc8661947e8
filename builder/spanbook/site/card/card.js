// The machine card: what a number's machine has at every position, looked up in its series' table.
"use strict";

(() => {
  const place = document.querySelector("[data-card]");
  if (!place) return;
  const root = place.dataset.root;
  const tables = root + "assets/card/";

  const make = (tag, words = "", of = {}) => Object.assign(document.createElement(tag), { textContent: words, ...of });
  const target = (address) => root + address + (location.protocol === "file:" ? "index.html" : "");
  const link = (words, address) => make("a", words, { href: target(address) });
  const inside = ([first, last], number) => first <= number && (last === null || number <= last);

  function load(id) {
    return new Promise((resolve) => {
      const script = make("script", "", { src: `${tables}${id}.js` });
      script.onload = () => resolve(spanbookTables.get(id));
      script.onerror = () => resolve(null);
      document.head.append(script);
    });
  }

  // What every position of one number has: [path, title, group, address, state, lines].
  function rowsOf(table, number) {
    return table.positions.map(([path, title, group, address, runs]) => {
      const [, , state, lines] = runs.find((run) => inside(run, number));
      return [path, title, group, address, state, lines.map((i) => table.lines[i])];
    });
  }

  function yearOf(table, number) {
    const found = table.years.filter(([first]) => first <= number);
    return found.length ? `${table.words.year} ${found.at(-1)[1]}.` : table.words["no-year"];
  }

  function conversionsOf(table, number) {
    return table.conversions.filter((run) => inside(run, number));
  }

  function stateOf(table, state) {
    const [word, meaning] = table.states[state] ?? [table.words.differs, ""];
    return make("span", word, { className: `sb-state sb-state-${state}`, title: meaning });
  }

  function renderRow(table, [, title, , address, state, lines], conversions) {
    const row = document.createElement("tr");
    const head = make("th", "", { scope: "row" });
    head.append(link(title, address));
    const what = document.createElement("td");
    for (const [, name, page, words] of lines) {
      const line = document.createElement("p");
      line.append(link(name, page), " ", make("span", words, { className: "sb-quiet" }));
      what.append(line);
    }
    if (lines.length === 0) what.append(make("p", table.states.blank[1], { className: "sb-quiet" }));
    for (const [, , sure, , name, page, words] of conversions) {
      const line = make("p", `${table.words.conversions} ${sure}`, { className: "sb-quiet" });
      line.append(link(name, page), ` (${words})`);
      what.append(line);
    }
    const stands = document.createElement("td");
    stands.append(stateOf(table, state));
    row.append(head, stands, what);
    return row;
  }

  function renderTable(table, rows, number) {
    const body = make("div", "", { className: "sb-wide sb-card" });
    let group = null;
    let rowsOfGroup = null;
    for (const row of rows) {
      if (row[2] !== group) {
        group = row[2];
        body.append(make("h2", group));
        const made = make("table", "", { className: "sb-table" });
        made.append(make("caption", group, { className: "sb-unseen" }));
        rowsOfGroup = document.createElement("tbody");
        made.append(rowsOfGroup);
        body.append(made);
      }
      const conversions = number === null ? [] : conversionsOf(table, number).filter((c) => c[3] === row[0]);
      rowsOfGroup.append(renderRow(table, row, conversions));
    }
    return body;
  }

  // For a forum: the same in three spellings, each with the permanent address, the date and the release.
  function spellings(shown, table, rows, number) {
    const address = `${place.dataset.canonical || location.href.split("?")[0]}?serial=${encodeURIComponent(shown).replace(/%20/g, "+")}`;
    const foot = `${address} (${new Date().toISOString().slice(0, 10)}, ${place.dataset.release})`;
    const lines = rows.map(([, title, , , state, held]) => [title, table.states[state][0], held.map(([, name]) => name).join(", ") || "-"]);
    const head = `${shown}, ${table.machine}. ${yearOf(table, number)}`;
    return {
      plain: [head, ...lines.map(([a, b, c]) => `${a}: ${c} (${b})`), foot].join("\n"),
      markdown: [`**${head}**`, "", "| | | |", "| --- | --- | --- |", ...lines.map((l) => `| ${l.map((t) => t.replaceAll("|", "\\|")).join(" | ")} |`), "", foot].join("\n"),
      bbcode: [`[b]${head}[/b]`, "[list]", ...lines.map(([a, b, c]) => `[*]${a}: ${c} (${b})`), "[/list]", foot].join("\n"),
    };
  }

  function renderCopies(made) {
    const box = place.querySelector("[data-copies]");
    const text = box.querySelector("textarea");
    box.hidden = false;
    box.querySelectorAll("button").forEach((button) => {
      button.onclick = async () => {
        text.value = made[button.value];
        text.hidden = false;
        text.select();
        try {
          await navigator.clipboard.writeText(text.value);
          box.querySelector("[role=status]").textContent = box.dataset.copied;
        } catch {
          box.querySelector("[role=status]").textContent = box.dataset.select;
        }
      };
    });
  }

  function renderOne(out, series, table, number, shown) {
    document.title = document.title.replace(/^[^·]*/, () => `${shown} `);
    out.append(make("p", `${table.machine}. ${yearOf(table, number)}`, { className: "sb-answer" }));
    const rows = rowsOf(table, number);
    const where = make("p", "");
    where.append(link(table.series, table.address));
    out.append(where, renderTable(table, rows, number));
    const open = table.questions.filter((run) => inside(run, number)).slice(0, table["most-questions"]);
    if (open.length) {
      const list = document.createElement("ul");
      const all = target(table["all-questions"]);
      for (const [words, href] of [...open.map(([, , said, anchor]) => [said, `${all}#${anchor}`]), [table.words["all-questions"], all]]) {
        const item = document.createElement("li");
        item.append(make("a", words, { href }));
        list.append(item);
      }
      const box = make("section", "", { className: "sb-open" });
      box.append(make("h2", table.words.questions), list);
      out.append(box);
    }
    const add = place.querySelector("[data-add-to]");
    add.href = `${target(place.dataset.add)}?serial=${encodeURIComponent(shown)}`;
    renderCopies(spellings(shown, table, rows, number));
  }

  // What several numbers have in common: where they differ the row says so and lists all that it may be.
  function renderCommon(out, table, readings, show) {
    const each = readings.map(([, number]) => rowsOf(table, number));
    const rows = each[0].map((row, i) => {
      const all = each.map((one) => one[i]);
      const same = all.every((one) => JSON.stringify(one) === JSON.stringify(row));
      const held = new Map(all.flatMap((one) => one[5]).map((line) => [line[0] + line[3], line]));
      return same ? row : [...row.slice(0, 4), "differs", [...held.values()]];
    });
    const list = make("p", "");
    readings.forEach(([, number], i) => list.append(i ? ", " : "", make("a", show(number), { href: `?serial=${encodeURIComponent(show(number))}` })));
    out.append(list, renderTable(table, rows, null));
  }

  async function render() {
    const asked = (new URLSearchParams(location.search).get("serial") ?? "").trim();
    if (!asked) return;
    place.querySelector("input").value = asked;
    const out = place.querySelector("[data-out]");
    out.replaceChildren();
    const [, series] = (await spanbookLoad("series")) ?? [{}, []];
    const found = SpanbookRead.readings(series, asked);
    const say = (name) => place.dataset[name].replace("{}", () => asked);
    place.querySelector("h2").textContent = say("title");
    if (found.length === 0) out.append(make("p", say("unread")));
    for (const one of [...new Set(found.map(([s]) => s))]) {
      const readings = found.filter(([s, , was]) => s === one && was);
      const show = (number) => one[1] + String(number).padStart(one[2], "0") + one[3];
      const table = await load(one[0]);
      if (readings.length === 0) {
        const line = make("p", `${say("never")} `);
        line.append(link(table.series, table.address));
        out.append(line);
      } else if (readings.length === 1) {
        renderOne(out, one, table, readings[0][1], show(readings[0][1]));
      } else {
        out.append(make("p", say("several")));
        renderCommon(out, table, readings, show);
      }
    }
    place.dataset.done = asked;
  }

  render();
})();
