// The cheapest ways from one state of a machine to another: the twin of answers/plan_search.py, and of what it is
// made of (plan_costs.py, plan_ways.py). A cost is one number here: new parts times STEP, and the steps.
"use strict";

const SpanbookPlanSearch = (() => {
  const STEP = 2 ** 20; // more steps than any way has
  const GAVE_UP = Symbol("as many states as may be were looked at");
  const costOf = (step) => step.parts * STEP + 1;
  const idsOf = (way) => way.map(({ id }) => id);
  const compare = (one, other) => (one < other ? -1 : one > other ? 1 : 0);
  const inOrder = (one, other) => {
    const at = one.findIndex((id, i) => id !== other[i]);
    return at < 0 ? one.length - other.length : at >= other.length ? 1 : compare(one[at], other[at]);
  };

  // What waits, the least first: the first in, of those that cost the same.
  function heap() {
    const held = [];
    let ticket = 0;
    const less = (a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2];
    function swap(i, j) { [held[i], held[j]] = [held[j], held[i]]; }
    function push(total, left, value) {
      held.push([total, left, ticket++, value]);
      for (let i = held.length - 1, up = (i - 1) >> 1; i > 0 && less(held[i], held[up]) < 0; i = up, up = (i - 1) >> 1) swap(i, up);
    }
    function pop() {
      const top = held[0];
      const last = held.pop();
      if (held.length) held[0] = last;
      for (let i = 0; ;) {
        const below = [2 * i + 1, 2 * i + 2].filter((j) => j < held.length && less(held[j], held[i]) < 0).sort((a, b) => less(held[a], held[b]))[0];
        if (below === undefined) return top;
        swap(i, below);
        i = below;
      }
    }
    return { held, pop, push };
  }

  // What each assembly at a position costs to turn into another where nothing is needed elsewhere.
  function distances(leading, position, to) {
    const backward = new Map();
    for (const [at, steps] of leading) {
      for (const step of steps) {
        const after = step.at.get(position).to;
        if (!backward.has(after)) backward.set(after, []);
        backward.get(after).push([at, step.position === position ? costOf(step) : 0]);
      }
    }
    const found = new Map();
    const waiting = heap();
    waiting.push(0, 0, to);
    while (waiting.held.length) {
      const [cost, , , at] = waiting.pop();
      if (found.has(at)) continue;
      found.set(at, cost);
      for (const [before, one] of backward.get(at) ?? []) waiting.push(cost + one, 0, before);
    }
    return found;
  }

  // Of the steps from an assembly on, those on any way to another, needs aside.
  function towards(beyond, position, to) {
    const near = distances(beyond, position, to);
    return new Map([...beyond].filter(([at]) => near.has(at)).map(([at, steps]) => [at, steps.filter((step) => near.has(step.at.get(position).to))]));
  }

  // The first ways of different steps, one more than are told.
  function first(ways, most) {
    const kept = new Map();
    for (const way of [...ways].sort((a, b) => inOrder(idsOf(a), idsOf(b)))) {
      const key = idsOf(way).sort().join(" ");
      if (!kept.has(key)) kept.set(key, way);
    }
    return [...kept.values()].slice(0, most + 1);
  }

  // Two ways of positions that were searched apart as one: whatever is first by its id is done first.
  function merged(one, other) {
    const made = [];
    for (let i = 0, j = 0; i < one.length || j < other.length;) {
      if (j >= other.length || (i < one.length && one[i].id <= other[j].id)) made.push(one[i++]);
      else made.push(other[j++]);
    }
    return made;
  }

  function together(found, most) {
    let told = [[]];
    let more = false;
    for (const ways of found) {
      told = first(told.flatMap((one) => ways.each.map((other) => merged(one, other))), most);
      more = more || ways.more;
    }
    return { each: told.slice(0, most), more: more || told.length > most };
  }

  // Groups of positions: those that have to be searched together as one.
  function joined(groups, joints) {
    const above = new Map();
    const top = (position) => {
      while (above.has(position) && above.get(position) !== position) position = above.get(position);
      if (!above.has(position)) above.set(position, position);
      return position;
    };
    for (const [one, ...others] of [...groups, ...joints]) {
      top(one);
      for (const other of others) above.set(top(other), top(one));
    }
    const made = new Map();
    for (const position of [...above.keys()].sort()) made.set(top(position), [...(made.get(top(position)) ?? []), position]);
    return [...made.values()].sort(inOrder);
  }

  // A search for the ways of one machine. Without `keep` a need is met when its step is taken, and no more.
  function search(world, holds, wanted, keep = true) {
    const most = world.table["most-ways"];
    const known = new Map();
    const wider = new Map();
    const self = { around, holds, isPlain, leading, states: 0, wanted, ways, world };
    const get = (position) => holds.get(position) ?? null;

    // Whether what a position holds changes only by steps that begin with it.
    function isPlain(position) {
      return !world.places.get(position)?.housing && world.at(position).every((step) => step.at.get(position).start.length);
    }

    // The steps that can be of use at a position: on the way to what is wanted there, if anything is.
    function leading(position) {
      const held = get(position);
      if (!isPlain(position)) return world.beyond(position, new Set([held, null]));
      const beyond = held ? world.beyond(position, [held]) : new Map();
      return wanted.has(position) ? towards(beyond, position, wanted.get(position)) : beyond;
    }

    // The positions that one is inside of.
    function around(position) {
      const housing = world.places.get(position)?.housing;
      return housing ? [housing[0], ...around(housing[0])] : [];
    }

    // The positions that a step touches, and those inside of them.
    const moved = (step) => new Set([...step.touches, ...step.changes.flatMap(({ position }) => world.inner(position))]);

    // Positions that cannot be searched apart.
    function jointsOf(found) {
      const taken = found.map(({ group, ways: { each } }) => [group, new Set(each.flat())]);
      const every = new Set(taken.flatMap(([, steps]) => [...steps].flatMap((step) => [...moved(step)])));
      const outside = taken.flatMap(([group]) => (wider.get(group.join(" ")) ?? []).map((other) => [group[0], other]));
      return outside.concat(taken.flatMap(([group, steps]) => [...steps].flatMap((step) => {
        const others = [...moved(step)].filter((other) => !group.includes(other) && (step.touches.has(other) || wanted.has(other)));
        const asked = [...step.needs, ...step.taking].filter((need) => !group.includes(need.position) && (every.has(need.position) || !need.assemblies.includes(get(need.position))));
        return [...others, ...asked.map(({ position }) => position)].map((other) => [group[0], other]);
      })));
    }

    function apart(group) {
      const key = group.join(" ");
      if (!known.has(key)) {
        const { allows, around: outside, ways: found } = cheapest(self, group, keep, most);
        known.set(key, found);
        if (!found.each.every(allows)) wider.set(key, outside);
      }
      return known.get(key);
    }

    // The cheapest ways; none where there is no way. Throws GAVE_UP.
    function ways() {
      let groups = [...wanted].filter(([position, to]) => get(position) !== to).map(([position]) => [position]).sort(inOrder);
      for (;;) {
        const found = groups.map((group) => ({ group, ways: apart(group) }));
        if (!found.every((one) => one.ways.each.length)) return { each: [], more: false };
        const joints = jointsOf(found);
        if (!joints.length) return together(found.map((one) => one.ways), most);
        groups = joined(groups, joints);
      }
    }

    return self;
  }

  const whole = ([assembly, , missing], assemblies) => assemblies.includes(assembly) && missing.length === 0;

  // The search over some positions, while all others are as they have to be. A state has, for each of them, the
  // assembly, what that needs elsewhere, and what was taken off it; both are forgotten where what is around it is
  // not searched with it.
  function cheapest(self, group, keep, most) {
    const { holds, wanted, world } = self;
    const at = new Map(group.map((position, i) => [position, i]));
    const leading = group.map(self.leading);
    const goals = group.map((position) => wanted.get(position) ?? null);
    const lefts = group.map((position, i) => (goals[i] && self.isPlain(position) ? distances(leading[i], position, goals[i]) : null));
    const outside = group.map((position) => self.around(position).filter((other) => !at.has(other)));
    const renewed = new Set(group.filter((_, i) => outside[i].length));
    const start = group.map((position) => [holds.get(position) ?? null, [], []]);
    const states = new Map(); // by what is written of one: the state, its best cost, and the ways into it

    function leftOf(state) {
      let total = 0;
      for (const [i, left] of lefts.entries()) {
        if (!left) continue;
        if (!left.has(state[i][0])) return null;
        total += left.get(state[i][0]);
      }
      return total;
    }

    // Whether a step may be taken, as far as the positions of the group go.
    function isOpen(step, state) {
      const here = (position) => state[at.get(position)];
      return step.changes.every(({ position, start: from }) => !at.has(position) || !from.length || from.includes(here(position)[0]))
        && step.needs.every(({ position, assemblies }) => !at.has(position) || whole(here(position), assemblies))
        && step.taking.every(({ position, assemblies, part }) => !at.has(position) || (assemblies.includes(here(position)[0]) && !here(position)[2].includes(part)))
        && step.changes.every(({ position, to }) => !at.has(position) || !lefts[at.get(position)] || lefts[at.get(position)].has(to));
    }

    function after(step, state, forgotten = renewed) {
      const get = (position) => (at.has(position) ? state[at.get(position)][0] : holds.get(position) ?? null);
      const needs = step.needs.filter(({ position }) => keep && at.has(position)).map(({ position, assemblies }) => [position, ...[...new Set(assemblies)].sort()]);
      const kept = needs.sort(inOrder).filter((need, i) => !i || inOrder(need, needs[i - 1]));
      const held = [...state];
      for (const { position, part } of step.taking) {
        if (!at.has(position) || step.at.has(position) || forgotten.has(position)) continue;
        const i = at.get(position);
        held[i] = [held[i][0], held[i][1], [...new Set([...held[i][2], part])].sort(compare)];
      }
      for (const [position, to] of world.effects(get, step)) {
        if (!at.has(position)) continue;
        const i = at.get(position);
        held[i] = to && !forgotten.has(position) ? [to, kept, [...world.missingAfter(step, position, new Set(held[i][2]))].sort(compare)] : [to, [], []];
      }
      return held;
    }

    // Whether a way that was found is one when nothing is forgotten.
    function allows(way) {
      let state = start;
      for (const step of way) {
        if (!isOpen(step, state)) return false;
        state = after(step, state, new Set());
      }
      return ended(state);
    }

    // The steps from a state, each once.
    function onward(state) {
      const steps = new Set(state.flatMap(([assembly], i) => leading[i].get(assembly) ?? []));
      return [...steps].filter((step) => isOpen(step, state)).map((step) => [step, after(step, state)]);
    }

    function ended(state) {
      return goals.every((to, i) => to === null || whole(state[i], [to]))
        && state.every(([, kept]) => kept.every(([position, ...allowed]) => whole(state[at.get(position)], allowed)));
    }

    // The ways that end so, the first by their ids in order; of one set of steps the first order alone.
    function ordered(ends) {
      const onTheWay = new Set(ends);
      for (const key of onTheWay) for (const [before] of states.get(key).into) onTheWay.add(before);
      const ways = new Map();
      for (const key of [...onTheWay].sort((a, b) => states.get(a).best - states.get(b).best)) {
        const { into } = states.get(key);
        ways.set(key, into.length ? first(into.flatMap(([before, step]) => ways.get(before).map((way) => [...way, step])), most) : [[]]);
      }
      const each = first(ends.flatMap((end) => ways.get(end)), most);
      return { each: each.slice(0, most), more: each.length > most };
    }

    function search() {
      const begin = leftOf(start);
      const waiting = heap();
      const done = new Set();
      const ends = [];
      states.set(JSON.stringify(start), { state: start, best: 0, into: [] });
      if (begin !== null) waiting.push(begin, begin, JSON.stringify(start));
      while (waiting.held.length) {
        const [total, , , key] = waiting.pop();
        if (ends.length && total > states.get(ends[0]).best) break;
        if (done.has(key)) continue;
        done.add(key);
        const { best, state } = states.get(key);
        if (ended(state)) {
          ends.push(key);
          continue;
        }
        if (self.states >= world.table["most-states"]) {
          if (!ends.length) throw GAVE_UP;
          return { ...ordered(ends), more: true };
        }
        for (const [step, next] of onward(state)) {
          self.states += 1;
          const cost = best + costOf(step);
          const to = JSON.stringify(next);
          const there = states.get(to);
          if (there && there.best === cost) there.into.push([key, step]);
          else if (!there || cost < there.best) {
            states.set(to, { state: next, best: cost, into: [[key, step]] });
            const still = leftOf(next);
            if (still === null) throw new Error("a step was open that leads out of reach");
            waiting.push(cost + still, still, to);
          }
        }
      }
      return ordered(ends);
    }

    return { allows, around: outside.flat(), ways: search() };
  }

  return { GAVE_UP, distances, search };
})();
