// How to get from what is on a machine to what is wanted on it, or why not: the twin of answers/plans.py, of
// plan_reach.py, and of `as_late_as_it_can_be`. States are maps from positions to assemblies.
"use strict";

const SpanbookPlans = (() => {
  const { GAVE_UP, distances, search } = SpanbookPlanSearch;
  const { inside } = SpanbookPieces;
  const sum = (numbers) => numbers.reduce((total, one) => total + one, 0);
  const inOrder = ([one, to], [other, and]) => (one < other ? -1 : one > other ? 1 : to < and ? -1 : to > and ? 1 : 0);
  const asNeed = ({ position, assemblies }) => ({ position, assemblies, said: [] });

  // What the machine surely left the works with.
  function works({ number, table }) {
    const told = Object.entries(table.positions).map(([path, [, , , , , runs]]) => [path, runs.find((run) => inside(run, number))?.[2] ?? null]);
    return new Map(told.filter(([, assembly]) => assembly !== null));
  }

  // How a way ends: what each position holds, the last step there, and what is missing of it.
  function endOf(world, holds, way) {
    const held = new Map(holds);
    const last = new Map();
    const missing = new Map();
    const get = (position) => held.get(position) ?? null;
    const lacks = (step, position) => missing.set(position, world.missingAfter(step, position, missing.get(position) ?? new Set()));
    for (const step of way) {
      for (const position of new Set(step.taking.map((one) => one.position))) if (!step.at.has(position)) lacks(step, position);
      for (const [position, to] of world.effects(get, step)) {
        held.set(position, to);
        last.delete(position);
        if (to === null) missing.set(position, new Set());
        else {
          lacks(step, position);
          last.set(position, step);
        }
      }
    }
    const whole = ({ position, assemblies }) => assemblies.includes(held.get(position)) && !missing.get(position)?.size;
    return { held, last, missing, whole };
  }

  // Of some needs of the steps of a way those that are broken when it ends with what the step made.
  function broken(world, holds, way, needs) {
    const end = endOf(world, holds, way);
    return needs.filter(([step, need]) => step.changes.some(({ position }) => end.last.get(position) === step) && !end.whole(need));
  }

  function plan(world, holds, way) {
    const advice = way.flatMap((step) => step.advice.map((need) => [step, need]));
    const taken = new Map(way.flatMap((step) => step.taking.map(({ position, part, quantity }) => [`${position} ${part}`, quantity])));
    const { missing } = endOf(world, holds, way);
    const left = [...missing].sort(inOrder).flatMap(([position, parts]) => [...parts].sort((a, b) => a - b).map((part) => [position, part, taken.get(`${position} ${part}`)]));
    return { steps: way, parts: sum(way.map(({ parts }) => parts)), advised: broken(world, holds, way, advice), left };
  }

  // What each position that the goal depends on could ever come to hold; it may be more than is true.
  function reachable(made) {
    const { holds, wanted, world } = made;
    const leading = new Map();
    const reached = new Map();
    let waiting = [...wanted].filter(([position, to]) => holds.get(position) !== to).map(([position]) => position);
    const met = ({ position, assemblies }) => assemblies.some((one) => reached.get(position)?.has(one));
    for (let grown = true; grown;) {
      for (const position of waiting) {
        if (leading.has(position)) continue;
        leading.set(position, made.leading(position));
        reached.set(position, new Set(holds.has(position) ? [holds.get(position)] : []));
        if (!made.isPlain(position)) reached.get(position).add(null);
      }
      const steps = [...leading.values()].flatMap((at) => [...at.values()].flat());
      const asked = steps.flatMap((step) => [...step.touches, ...step.needs.map(({ position }) => position)]);
      waiting = [...new Set(asked)].filter((position) => !leading.has(position));
      grown = waiting.length > 0;
      for (const step of steps) {
        for (const { position, to } of step.changes) {
          if (!reached.has(position) || reached.get(position).has(to)) continue;
          const begun = step.changes.every((one) => !one.start.length || met({ position: one.position, assemblies: one.start }));
          if (begun && step.needs.every(met) && step.taking.every(met)) {
            reached.get(position).add(to);
            grown = true;
          }
        }
      }
    }
    return reached;
  }

  // The parts that would have to be found where no conversion does it: what the one has beyond the other.
  function toFind({ number, table }, before, after) {
    const lines = (id) => (id === null ? [] : table.lists[id].find((run) => inside(run, number))?.[2] ?? []);
    const known = new Map();
    const count = new Map();
    for (const [keys, quantity] of lines(before)) {
      count.set(keys[0], (count.get(keys[0]) ?? 0) - quantity);
      for (const key of keys) if (!known.has(key)) known.set(key, keys[0]);
    }
    for (const [keys, quantity] of lines(after)) {
      const key = known.get(keys.find((one) => known.has(one))) ?? keys[0];
      count.set(key, (count.get(key) ?? 0) + quantity);
    }
    return [...count].filter(([, quantity]) => quantity > 0).sort(([one], [other]) => one - other);
  }

  function inTheWay(made, reached, position, wanted) {
    const { holds, world } = made;
    const held = holds.get(position) ?? null;
    const none = { position, wanted, why: "none-recorded", missing: toFind(world, held, wanted) };
    const leading = made.leading(position);
    const near = distances(leading, position, wanted);
    const leads = (step) => near.has(step.at.get(position).to);
    const begun = [...new Set([...reached.get(position)].flatMap((at) => leading.get(at) ?? []))].filter(leads);
    if (held === null && !begun.length) {
      const noPlace = world.there((one) => holds.get(one) ?? null, position) === false;
      return noPlace ? { ...none, why: "no-place" } : { ...none, unknown: position };
    }
    const last = (step) => (step.at.get(position).to === wanted ? 0 : 1);
    for (const step of begun.sort((a, b) => last(a) - last(b) || (a.id < b.id ? -1 : 1))) {
      for (const need of [...step.needs, ...step.taking.map(asNeed)]) {
        if (!need.assemblies.some((one) => reached.get(need.position).has(one))) {
          return { ...none, why: "unmet-need", need: [step, need], unknown: holds.has(need.position) ? null : need.position };
        }
      }
    }
    return none;
  }

  // What is wanted and out of reach, whatever else were done.
  function outOfReach(made) {
    const reached = reachable(made);
    const out = [...made.wanted].sort(inOrder).find(([position, to]) => reached.has(position) && !reached.get(position).has(to));
    return out && inTheWay(made, reached, ...out);
  }

  function careless(made) {
    try {
      return search(made.world, made.holds, made.wanted, false).ways().each;
    } catch (error) {
      if (error !== GAVE_UP) throw error;
      return [];
    }
  }

  const notYet = ({ holds, wanted }) => [...wanted].filter(([position, to]) => holds.get(position) !== to).sort(inOrder)[0];

  // What would be broken at the end, where there is a way but for that.
  function notTogether(made) {
    for (const way of careless(made)) {
      const needs = way.flatMap((step) => step.needs.map((need) => [step, need]));
      const [first] = broken(made.world, made.holds, way, needs);
      if (first) return { position: first[0].position, wanted: first[0].to, why: "need-broken", need: first, missing: [] };
    }
    const [position, wanted] = notYet(made);
    return { position, wanted, why: "not-together", states: made.states, missing: [] };
  }

  // The steps from what a machine holds to what is wanted, of the fewest new parts; or why there are none.
  function convert(world, holds, wanted) {
    const made = search(world, holds, wanted);
    try {
      const { each, more } = made.ways();
      if (!each.length) return outOfReach(made) ?? notTogether(made);
      const [first, ...others] = each.map((way) => plan(world, holds, way));
      return { ...first, others, more };
    } catch (error) {
      if (error !== GAVE_UP) throw error;
      const [position, to] = notYet(made);
      return outOfReach(made) ?? { position, wanted: to, why: "gave-up", states: made.states, missing: [] };
    }
  }

  // From where a plan ends to what the machine held before, as far as that was known.
  function wayBack(world, holds, { steps }) {
    const { held } = endOf(world, holds, steps);
    const now = new Map([...held].filter(([, assembly]) => assembly !== null));
    const before = new Map([...holds].filter(([position, assembly]) => now.get(position) !== assembly));
    return before.size ? convert(world, now, before) : null;
  }

  // The state after every conversion that can be done has been, the later in year first.
  function latest(world, holds) {
    const held = new Map(holds);
    const get = (position) => held.get(position) ?? null;
    const been = new Set([...held].map(([position, assembly]) => `${position} ${assembly}`));
    const kept = new Map(); // what a position may hold, by the positions that need it

    const goesBack = (step) => world.leadingFrom(step.position, step.to).some((other) => {
      const [back, there] = [step.changes[0], other.changes[0]];
      return other !== step && back.start.includes(there.to) && there.start.includes(back.to) && other.year <= step.year;
    });
    const isSpared = (step) => [...world.effects(get, step)].every(([at, to]) =>
      [...(kept.get(at) ?? [])].every(([by, allowed]) => step.at.has(by) || allowed.includes(to)));
    const isOpen = (step) => step.changes.every(({ position, start }) => !start.length || start.includes(get(position)))
      && step.needs.every(({ position, assemblies }) => assemblies.includes(get(position)))
      && !been.has(`${step.position} ${step.to}`) && !step.taking.length && isSpared(step) && !goesBack(step);

    for (;;) {
      const open = [...held].flatMap(([position, assembly]) => world.leadingFrom(position, assembly)).filter(isOpen);
      const [step] = open.sort((a, b) => b.year - a.year || (a.id < b.id ? -1 : 1));
      if (!step) return held;
      for (const [at, to] of world.effects(get, step)) {
        held.delete(at);
        for (const needers of kept.values()) needers.delete(at);
        if (to !== null) held.set(at, to);
      }
      been.add(`${step.position} ${step.to}`);
      for (const { position, assemblies } of step.needs) {
        if (!kept.has(position)) kept.set(position, new Map());
        for (const one of step.changes) kept.get(position).set(one.position, assemblies);
      }
    }
  }

  return { convert, endOf, latest, wayBack, works };
})();
