// What is known of one machine, looked up in the tables of its series: what its card and the finder show.
"use strict";

const SpanbookMachine = (() => {
  const load = (name) => spanbookLoad(name, "../card/");
  const { inside } = SpanbookPieces;
  // Where a position stands on the card, by its address.
  const line = (address) => address.replace(/^positions\//, "").replace(/\/$/, "").replaceAll("/", "--");

  // What is told of one number and of no other: a list, the id of its unit, or nothing.
  async function ownOf(series, table, number) {
    const block = table.seen.filter((first) => first <= number).length - 1;
    return block < 0 ? undefined : (await load(`${series[0]}-seen-${block}`))[number];
  }

  // Who looked at a machine, and what was seen at which position; its questions where some are answered.
  function seenOn(series, table, number, own) {
    const worn = table.worn.filter(([text]) => SpanbookSerials.readings([series], text).some(([, n]) => n === number));
    const [looks, rows, questions] = own ?? [[], [], null];
    const places = new Map(rows.map(([i, short, sections, seen]) => [i, { short, sections: [...sections], seen }]));
    for (const [, , heading, runs] of worn) {
      for (const [i, first, last, said] of runs.filter(([, first, last]) => inside([first, last], number))) {
        if (!places.has(i)) places.set(i, { short: null, sections: [] });
        const held = places.get(i).sections;
        const section = held.find(([words]) => words === heading);
        if (section) section[1] = [...section[1], said];
        else held.push([heading, [said]]);
      }
    }
    return { looks, perhaps: worn.map(([, look]) => look), places, questions };
  }

  // One machine by a number: its first sentence, who looked at it, its positions and its questions.
  async function of(series, table, number) {
    const own = await ownOf(series, table, number);
    if (typeof own === "string") return unitOf(table, own, await load(`unit-${own}`));
    const { looks, perhaps, places, questions } = seenOn(series, table, number, own);
    return { head: headOf(table, number), known: [], looks, perhaps, rows: rowsOf(table, number, places), questions: questionsOf(table, number, questions) };
  }

  // The same for one that is known by several numbers, which has a table of its own.
  function unitOf(table, id, unit) {
    const rows = table.positions.map(([title, group, address, , , key], i) => {
      const [short, known, sections, told, seen] = unit.rows[i];
      return { title, group, address, key, known, short, sections, told, seen };
    });
    return { ...unit, unit: id, rows };
  }

  // What every position of one number has.
  function rowsOf(table, number, places) {
    return table.positions.map(([title, group, address, runs, told, key], i) => {
      const [, , known, short, sections] = runs.find((run) => inside(run, number));
      const recorded = sections.map((one) => table.sections[one]).map(([heading, lines]) => [heading, lines.map((line) => table.lines[line])]);
      const seen = places.get(i) ?? { short: null, sections: [] };
      return { title, group, address, key, known, short: seen.short ?? table.shorts[short], sections: [...seen.sections, ...recorded], told, seen: seen.seen ?? "" };
    });
  }

  function headOf(table, number) {
    return table.heads.filter(([first]) => first <= number).at(-1)[1];
  }

  function questionsOf(table, number, own) {
    const open = own ? own.map((i) => table.questions[i]) : table.questions.filter(([runs]) => runs.some((run) => inside(run, number)));
    return open.slice(0, table["most-questions"]).map(([, words, anchor]) => [words, `${table["all-questions"]}#${anchor}`]);
  }

  return { line, load, of };
})();
