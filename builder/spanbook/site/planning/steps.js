// The steps open to one machine, and what each makes of what positions hold: the twin of answers/steps.py.
"use strict";

const SpanbookSteps = (() => {
  const { inside } = SpanbookPieces;
  const byId = (one, other) => (one.id < other.id ? -1 : one.id > other.id ? 1 : 0);
  const needOf = ([position, assemblies, ...said]) => ({ position, assemblies, said });

  // A row of a series' table as a step for the machine with a number; nothing where it is not for that.
  function step([id, title, address, parts, changes, needs, around, takes, adds, year, lines, runs], number) {
    const run = runs.find((one) => inside(one, number));
    if (!run || run[2] === null) return [];
    const all = needs.map(needOf);
    const at = new Map(changes.map(([position, start, to]) => [position, { position, start, to }]));
    const taking = takes.map(([position, part, quantity, assemblies]) => ({ position, part, quantity, assemblies }));
    return [{
      id, title, address, parts, adds, year, lines, at, taking, told: run[2],
      position: changes[0][0],
      to: changes[0][2],
      changes: [...at.values()],
      needs: [...all.filter(({ said }) => !said[0]), ...around.map(needOf)],
      advice: all.filter(({ said }) => said[0]),
      touches: new Set([...at.keys(), ...taking.map(({ position }) => position)]),
    }];
  }

  // What one machine's plans are made from. `get` gives what a position holds, or null.
  function world(table, number) {
    const places = new Map(Object.entries(table.positions).map(([path, [, , housing, holds]]) => [path, { housing, holds }]));
    const steps = table.conversions.flatMap((row) => step(row, number)).sort(byId);
    const changing = new Map();
    for (const one of steps) for (const { position } of one.changes) changing.set(position, [...(changing.get(position) ?? []), one]);
    const at = (position) => changing.get(position) ?? [];

    function leadingFrom(position, assembly) {
      return at(position).filter((one) => {
        const { start, to } = one.at.get(position);
        return to !== assembly && (!start.length || start.includes(assembly));
      });
    }

    // Everything that a position may come to hold, with the steps from each; needs aside.
    function beyond(position, held) {
      const found = new Map();
      const waiting = [...held];
      for (const assembly of waiting) {
        if (found.has(assembly)) continue;
        found.set(assembly, leadingFrom(position, assembly));
        waiting.push(...found.get(assembly).map((one) => one.at.get(position).to));
      }
      return found;
    }

    // Whether the machine has a place, by what it holds around it; null where that is not known.
    function there(get, position) {
      const housing = places.get(position)?.housing;
      if (!housing) return true;
      const outer = there(get, housing[0]);
      const held = get(housing[0]);
      if (outer && held !== null) return housing[1].includes(held);
      return outer ? null : outer;
    }

    // The places inside what a position holds, however deep, that hold something themselves.
    const inner = (position) => (table.inside[position] ?? []).filter((path) => places.get(path).holds);

    // What each position that a step changes holds afterwards, and each inside of them that comes or goes.
    function effects(get, one) {
      const after = new Map(one.changes.map(({ position, to }) => [position, to]));
      const now = (position) => (after.has(position) ? after.get(position) : get(position));
      for (const position of one.at.keys()) {
        for (const path of inner(position)) {
          if (!one.at.has(path) && there(get, path) !== there(now, path)) after.set(path, null);
        }
      }
      return after;
    }

    // The parts that are missing at a position when a step is done.
    function missingAfter(one, position, missing) {
      const change = one.at.get(position);
      if (!change) return new Set([...missing, ...one.taking.filter((taken) => taken.position === position).map(({ part }) => part)]);
      const listed = table.assemblies[change.to][4];
      return new Set([...missing].filter((part) => listed.includes(part) && !one.adds.includes(part)));
    }

    return { at, beyond, effects, inner, leadingFrom, missingAfter, number, places, steps, table, there };
  }

  return { world };
})();
