"""Plans with places inside assemblies, several changes in one step and parts taken off elsewhere: by hand,
and against every way there is on small machines."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import count

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.conversions import as_late_as_it_can_be
from spanbook.answers.plans import NoPlan, Plan, Why, convert
from spanbook.answers.readings import read_serial
from spanbook.reading.records import Change, Conversion, PositionNeed, Record
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.wording.conversions import refusal_words
from tests.support.registers import record

MACHINE = """\
kind: machine
id: x
title: X
maker: Example Works
series:
- {id: xa, stamped: "XA {number}", plate: machine, first: 1, last: 20}
"""
TREE = """\
kind: positions
positions:
- {id: pump, title: Pump}
- id: filter
  title: Filter
  positions:
  - id: valve
    title: Valve
    within: [%s]
"""
PLACES = {"pump": ("p0", "p1", "p2"), "filter": ("f0", "f1", "f2"), "filter/valve": ("v0", "v1")}
# What may be taken off each: p0 and p1 have a part in common, p1 and p2 another.
PARTS = {"p0": "A", "p1": "AB", "p2": "B", "f0": "C", "f1": "C", "v0": "V"}


def world(*kits: Record, within: str = "f1, f2") -> Register:
    made = [record(TREE % within, "positions", "positions"), record(MACHINE, "machine", "x")]
    for place, held in PLACES.items():
        for id_ in held:
            listed = "".join(f"- {{number: {one}, name: {one}}}\n" for one in PARTS.get(id_, ""))
            text = (
                f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: {place}\n"
                f"serials: [{{series: xa, first: 1, last: open}}]\n" + (f"parts:\n{listed}" if listed else "")
            )
            made.append(record(text, "assembly", id_))
    return build([*made, *kits])


def kit(id_: str, place: str, start: str, to: str, more: str = "") -> Record:
    text = (
        f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {place}\nfrom: [{start}]\nto: {to}\n"
        f"serials: [{{series: xa, first: 1, last: open}}]\n{more}"
    )
    return record(text, "conversion", id_)


def planned(made: Register, holds: dict[str, str], wanted: dict[str, str]) -> Plan | NoPlan:
    return convert(made, read_serial(made, "XA 1")[0], holds, wanted)


def ids(plan: Plan | NoPlan) -> list[str]:
    assert isinstance(plan, Plan), plan
    return [step.id for step in plan.steps]


def test_what_is_inside_goes_along_where_the_new_one_has_the_same_place() -> None:
    made = world(kit("k", "filter", "f1", "f2"), kit("l", "filter", "f1", "f0"))
    holds = {"filter": "f1", "filter/valve": "v0"}
    assert ids(planned(made, holds, {"filter": "f2", "filter/valve": "v0"})) == ["k"]
    gone = planned(made, holds, {"filter": "f0", "filter/valve": "v0"})
    assert isinstance(gone, NoPlan)


def test_what_comes_inside_is_there_when_the_conversion_says_so() -> None:
    also = "also: [{position: filter/valve, to: v1}]\n"
    made = world(kit("k", "filter", "f0", "f1", also), kit("l", "filter/valve", "v1", "v0"))
    assert ids(planned(made, {"filter": "f0"}, {"filter/valve": "v1"})) == ["k"]
    assert ids(planned(made, {"filter": "f0"}, {"filter/valve": "v0"})) == ["k", "l"]
    made = world(kit("k", "filter", "f0", "f1"))
    refused = planned(made, {"filter": "f0"}, {"filter/valve": "v1"})
    assert isinstance(refused, NoPlan)
    assert refused.why is Why.NO_PLACE
    assert "no place for the v1" in " ".join(refusal_words(made, refused))


def test_a_part_is_taken_off_once_and_is_missing_at_the_end() -> None:
    takes = "takes: [{position: pump, number: A}]\n"
    made = world(kit("k", "filter", "f0", "f1", takes), kit("l", "filter", "f1", "f2", takes))
    plan = planned(made, {"filter": "f0", "pump": "p0"}, {"filter": "f1"})
    assert isinstance(plan, Plan)
    assert [(position, key.number.upper()) for position, key, _ in plan.left] == [("pump", "A")]
    assert isinstance(planned(made, {"filter": "f0", "pump": "p0"}, {"filter": "f2"}), NoPlan)
    assert isinstance(planned(made, {"filter": "f0", "pump": "p2"}, {"filter": "f1"}), NoPlan)
    # What is robbed is not what was wanted there; what takes its place without that part is.
    kits = (kit("k", "filter", "f0", "f1", takes), kit("m", "pump", "p0", "p2"), kit("n", "pump", "p2", "p0"))
    again = planned(world(*kits), {"filter": "f0", "pump": "p0"}, {"filter": "f1", "pump": "p0"})
    assert ids(again) == ["k", "m", "n"]


def test_as_late_as_it_can_be_takes_the_insides_along() -> None:
    also = "year: 1930\nalso: [{position: filter/valve, to: v1}]\n"
    made = world(kit("k", "filter", "f0", "f1", also), kit("l", "filter", "f1", "f2", "year: 1931\n"))
    reading = read_serial(made, "XA 1")[0]
    latest = as_late_as_it_can_be(made, reading, {"filter": "f0"})
    assert latest == {"filter": "f2", "filter/valve": "v1"}
    assert ids(convert(made, reading, {"filter": "f0"}, latest)) == ["k", "l"]


# Against every way there is


@dataclass(frozen=True)
class Whole:
    """The whole machine: what each position holds, the last conversion there, what was taken off it."""

    held: tuple[str | None, ...]
    last: tuple[str | None, ...]
    missing: tuple[frozenset[str], ...]

    def at(self, place: str) -> int:
        return list(PLACES).index(place)

    def holds(self, place: str) -> str | None:
        return self.held[self.at(place)]

    def whole(self, place: str, of: tuple[str, ...]) -> bool:
        return self.holds(place) in of and not self.missing[self.at(place)]

    def put(self, place: str, id_: str | None, by: str | None, missing: frozenset[str]) -> Whole:
        i = self.at(place)

        def changed(each: tuple[object, ...], one: object) -> tuple[object, ...]:
            return (*each[:i], one, *each[i + 1 :])

        return Whole(changed(self.held, id_), changed(self.last, by), changed(self.missing, missing))  # type: ignore[arg-type]


def has_valve(state: Whole, within: set[str]) -> bool | None:
    """Whether the filter has a valve in it; None where nobody knows the filter."""
    held = state.holds("filter")
    return None if held is None else held in within


def after(state: Whole, one: Conversion, within: set[str]) -> Whole | None:
    """The machine when a conversion is done, or None where it cannot be: read straight from its record."""
    changes = [Change(one.position, one.start, one.to), *one.also]
    changed = [change.position for change in changes]
    if one.to == state.holds(one.position) and not one.also:
        return None
    for change in changes:
        if change.start and state.holds(change.position) not in change.start:
            return None
        around = change.position == "filter/valve" and "filter" not in changed
        if around and not state.whole("filter", tuple(within)):
            return None
    if any(not state.whole(need.position, need.assemblies) for need in one.needs if not need.advice):
        return None
    for taken in one.takes:
        held = state.holds(taken.position)
        if (
            taken.number not in PARTS.get(held or "", "")
            or taken.number in state.missing[state.at(taken.position)]
        ):
            return None
    had_place = has_valve(state, within)
    made = state
    for change in changes:
        kept = state.missing[state.at(change.position)] & set(PARTS.get(change.to, ""))
        made = made.put(change.position, change.to, one.id, frozenset(kept))
    for taken in one.takes:
        i = state.at(taken.position)
        if taken.position not in changed:
            made = made.put(taken.position, made.held[i], made.last[i], made.missing[i] | {taken.number})
    if "filter/valve" not in changed and has_valve(made, within) is not had_place:
        made = made.put("filter/valve", None, None, frozenset())
    return made


def ends_well(made: Register, state: Whole, wanted: dict[str, str], within: set[str]) -> bool:
    if not all(state.whole(place, (id_,)) for place, id_ in wanted.items()):
        return False
    for id_ in filter(None, state.last):
        one = made.conversions[id_]
        needs = [need for need in one.needs if not need.advice]
        changed = {one.position, *(change.position for change in one.also)}
        if "filter/valve" in changed and "filter" not in changed:
            needs.append(PositionNeed("filter", tuple(within), "", advice=False))
        if not all(state.whole(need.position, need.assemblies) for need in needs):
            return False
    return True


def every_way(
    made: Register, start: Whole, wanted: dict[str, str], within: set[str]
) -> tuple[tuple[int, int], set[tuple[str, ...]]] | None:
    """The least cost and the sets of conversions that have it: states relaxed until nothing changes."""
    best: dict[Whole, tuple[tuple[int, int], set[tuple[str, ...]]]] = {start: ((0, 0), {()})}
    waiting = [start]
    while waiting:
        state = waiting.pop()
        cost, sets = best[state]
        for one in made.conversions.values():
            then = after(state, one, within)
            if then is None:
                continue
            further = (cost[0] + sum(use.quantity for use in one.adds), cost[1] + 1)
            longer = {tuple(sorted((*ids, one.id))) for ids in sets}
            known = best.get(then)
            if known is None or further < known[0]:
                best[then] = (further, longer)
                waiting.append(then)
            elif further == known[0] and not longer <= known[1]:
                known[1].update(longer)
                waiting.append(then)
    ended = [found for state, found in best.items() if ends_well(made, state, wanted, within)]
    least = min((cost for cost, _ in ended), default=None)
    return None if least is None else (least, {ids for cost, sets in ended if cost == least for ids in sets})


@st.composite
def kits(draw: st.DrawFn, within: set[str]) -> list[Record]:
    made = []
    number = count()
    for _ in range(draw(st.integers(1, 7))):
        place = draw(st.sampled_from(list(PLACES)))
        start, to = draw(st.permutations(PLACES[place]))[:2]
        more = ""
        if parts := draw(st.integers(0, 2)):
            more += f"adds: [{{number: Z, quantity: {parts}}}]\n"
        if draw(st.booleans()):
            other = draw(st.sampled_from([p for p in PLACES if p != place]))
            # What is put into a place that it takes away itself is an error of the record.
            if other != "filter/valve" or place != "filter" or to in within:
                before = draw(st.sampled_from(["", *PLACES[other]]))
                then = draw(st.sampled_from([one for one in PLACES[other] if one != before]))
                if place != "filter/valve" or other != "filter" or then in within:
                    begun = f", from: [{before}]" if before else ""
                    more += f"also: [{{position: {other}{begun}, to: {then}}}]\n"
        if draw(st.booleans()):
            other = draw(st.sampled_from([p for p in PLACES if p != place]))
            held = ", ".join(
                draw(st.lists(st.sampled_from(PLACES[other]), min_size=1, max_size=2, unique=True))
            )
            more += f"needs: [{{position: {other}, assemblies: [{held}], why: It leaks}}]\n"
        if draw(st.integers(0, 2)) == 0:
            where = draw(st.sampled_from([p for p in PLACES if p != place]))
            taken = draw(st.sampled_from({"pump": "AB", "filter": "C", "filter/valve": "V"}[where]))
            more += f"takes: [{{position: {where}, number: {taken}}}]\n"
        made.append(kit(f"k{next(number)}", place, start, to, more))
    return made


@dataclass(frozen=True)
class Drawn:
    within: set[str]
    made: Register
    holds: dict[str, str]
    wanted: dict[str, str]


@st.composite
def small_machines(draw: st.DrawFn) -> Drawn:
    """A machine with a place inside of another, what it holds, and what is wanted on it."""
    within = set(draw(st.lists(st.sampled_from(PLACES["filter"]), min_size=1, max_size=2, unique=True)))
    made = world(*draw(kits(within)), within=", ".join(sorted(within)))
    holds = {place: draw(st.sampled_from(PLACES[place])) for place in ("pump", "filter")}
    if holds["filter"] in within and draw(st.booleans()):
        holds["filter/valve"] = draw(st.sampled_from(PLACES["filter/valve"]))
    goals = draw(st.lists(st.sampled_from(list(PLACES)), min_size=1, max_size=2, unique=True))
    return Drawn(within, made, holds, {place: draw(st.sampled_from(PLACES[place])) for place in goals})


@given(small_machines())
def test_plans_are_the_cheapest_there_are_on_every_small_machine(drawn: Drawn) -> None:
    within, made, holds, wanted = drawn.within, drawn.made, drawn.holds, drawn.wanted
    nothing = (frozenset[str](),) * 3
    start = Whole(tuple(holds.get(place) for place in PLACES), (None, None, None), nothing)
    reference = every_way(made, start, wanted, within)
    found = planned(made, holds, wanted)
    if reference is None:
        assert isinstance(found, NoPlan)
        assert found.proven
        return
    assert isinstance(found, Plan), found
    cost, sets = reference
    for plan in (found, *found.others):
        assert (plan.new_parts, len(plan.steps)) == cost
        state: Whole | None = start
        for step in plan.steps:
            assert state is not None
            state = after(state, step.conversion, within)
        assert state is not None
        assert ends_well(made, state, wanted, within)
        left = {(place, key.number.upper()) for place, key, _ in plan.left}
        assert left == {
            (place, one) for place, each in zip(PLACES, state.missing, strict=True) for one in each
        }
    named = {tuple(sorted(ids(plan))) for plan in (found, *found.others)}
    assert named <= sets
    assert found.more or named == sets
