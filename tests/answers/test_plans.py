"""Plans of conversions: worked by hand, and against every way there is in several hundred small worlds."""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from spanbook.answers import plan_search
from spanbook.answers.conversions import as_late_as_it_can_be
from spanbook.answers.plan_ways import MOST_WAYS
from spanbook.answers.plans import NoPlan, Plan, Why, convert
from spanbook.answers.readings import Reading, read_serial
from spanbook.reading.records import Conversion, Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.registers import assembly, record
from tests.support.rows import each_row
from tests.support.tries import tries

MACHINE = """\
kind: machine
id: x
title: X
maker: Example Works
series:
- {id: xa, stamped: "XA {number}", plate: machine, first: 1, last: 20}
"""


def kit(id_: str, place: str, start: str, to: str, parts: int = 1, needs: str = "", span: str = "") -> Record:
    """A conversion; `needs` are `place: one or other`, with a `?` before them for advice."""
    listed = []
    for need in filter(None, needs.split("; ")):
        where, held = need.removeprefix("?").split(": ")
        advice = ", advice: true" if need.startswith("?") else ""
        one = ", ".join(held.split(" or "))
        listed.append(f"{{position: {where}, assemblies: [{one}], why: It leaks{advice}}}")
    text = (
        f"kind: conversion\nid: {id_}\ntitle: {id_}\nposition: {place}\nfrom: [{start}]\nto: {to}\n"
        f"serials: [{{series: xa, {span or 'first: 1, last: open'}}}]\n"
        + (f"adds: [{{number: P, quantity: {parts}}}]\n" if parts else "")
        + (f"needs: [{', '.join(listed)}]\n" if listed else "")
    )
    return record(text, "conversion", id_)


def world(*kits: Record) -> Register:
    """Those conversions, with every assembly and position that they name."""
    conversions = [one for one in kits if isinstance(one, Conversion)]
    named = {(c.position, one) for c in conversions for one in (*c.start, c.to)}
    named |= {(need.position, one) for c in conversions for need in c.needs for one in need.assemblies}
    places = sorted({place for place, _ in named})
    tree = "".join(f"- {{id: {place}, title: {place}}}\n" for place in places)
    made = [assembly(id_, "first: 1, last: 20", place) for place, id_ in sorted(named)]
    positions = record(f"kind: positions\npositions:\n{tree}", "positions", "positions")
    return build([record(MACHINE, "machine", "x"), positions, *made, *kits])


def reading(made: Register, serial: str = "XA 1") -> Reading:
    return read_serial(made, serial)[0]


def planned(made: Register, holds: dict[str, str], **wanted: str) -> Plan | NoPlan:
    return convert(made, reading(made), holds, wanted)


def ids(plan: Plan | NoPlan) -> list[str]:
    assert isinstance(plan, Plan), plan
    return [step.id for step in plan.steps]


def refused(plan: Plan | NoPlan) -> NoPlan:
    assert isinstance(plan, NoPlan), plan
    return plan


# By hand


def others(count: int, kits: int = 3) -> list[Record]:
    """Other positions, each with conversions of its own in a ring."""
    return [
        kit(f"z{i}-{j}", f"p{i}", f"p{i}a{j}", f"p{i}a{(j + 1) % kits}")
        for i in range(count)
        for j in range(kits)
    ]


def test_a_goal_of_one_step_is_found_whatever_else_the_machine_could_have_done() -> None:
    made = world(kit("lid", "cover", "x", "y", 40), *others(60))
    holds = {"cover": "x", **{f"p{i}": f"p{i}a0" for i in range(60)}}
    assert ids(planned(made, holds, cover="y")) == ["lid"]


def test_positions_that_need_nothing_of_one_another_are_searched_apart() -> None:
    made = world(*others(30, 4))
    plan = convert(
        made,
        reading(made),
        {f"p{i}": f"p{i}a0" for i in range(30)},
        {f"p{i}": f"p{i}a{i % 4}" for i in range(30)},
    )
    assert isinstance(plan, Plan)
    assert len(plan.steps) == plan.new_parts == sum(i % 4 for i in range(30))


def test_giving_up_is_told_apart_from_there_being_no_way(monkeypatch: pytest.MonkeyPatch) -> None:
    made = world(
        kit("a", "cover", "x", "y", needs="drain: n"),
        kit("b", "drain", "m", "n", needs="vent: t"),
        kit("c", "vent", "s", "t"),
    )
    holds = {"cover": "x", "drain": "m", "vent": "s"}
    assert ids(planned(made, holds, cover="y")) == ["c", "b", "a"]
    monkeypatch.setattr(plan_search, "MOST_STATES", 2)
    given_up = refused(planned(made, holds, cover="y"))
    assert (given_up.why, given_up.states, given_up.proven) == (Why.GAVE_UP, 2, False)
    none = refused(planned(made, {**holds, "cover": "y"}, cover="x"))
    assert (none.why, none.proven) == (Why.NONE, True)


def test_a_plan_that_would_end_with_its_own_need_broken_is_refused_with_the_reason() -> None:
    made = world(
        kit("filter", "cover", "x", "y", needs="pump: wide"),
        kit("back", "pump", "wide", "narrow"),
        kit("widen", "pump", "narrow", "wide"),
    )
    found = refused(planned(made, {"cover": "x", "pump": "wide"}, cover="y", pump="narrow"))
    assert found.why is Why.BROKEN
    assert found.need is not None
    assert (found.need[0].id, found.need[1].assemblies) == ("filter", ("wide",))


def test_a_need_lasts_as_long_as_what_was_put_there() -> None:
    """The first lid needs the wide pump; the second, which takes its place, does not."""
    made = world(
        kit("first", "cover", "x", "y", needs="pump: wide"),
        kit("second", "cover", "y", "z"),
        kit("back", "pump", "wide", "narrow"),
    )
    plan = planned(made, {"cover": "x", "pump": "wide"}, cover="z", pump="narrow")
    assert ids(plan) == ["first", "back", "second"]


def test_what_is_only_advised_is_not_waited_for_and_told_when_it_is_missed() -> None:
    made = world(
        kit("filter", "cover", "x", "y", needs="?pump: wide"), kit("widen", "pump", "narrow", "wide")
    )
    plan = planned(made, {"cover": "x", "pump": "narrow"}, cover="y")
    assert isinstance(plan, Plan)
    assert ids(plan) == ["filter"]
    assert [(c.id, need.assemblies) for c, need in plan.advised] == [("filter", ("wide",))]
    for holds, wanted in (
        ({"cover": "x", "pump": "wide"}, {"cover": "y"}),
        ({"cover": "x", "pump": "narrow"}, {"cover": "y", "pump": "wide"}),
    ):
        heeded = convert(made, reading(made), holds, wanted)
        assert isinstance(heeded, Plan)
        assert heeded.advised == ()


def test_advice_for_what_is_gone_at_the_end_is_not_told() -> None:
    made = world(
        kit("first", "cover", "x", "y", needs="?pump: wide"),
        kit("second", "cover", "y", "z", needs="?vent: v"),
    )
    plan = planned(made, {"cover": "x", "pump": "narrow", "vent": "u"}, cover="z")
    assert isinstance(plan, Plan)
    assert [conversion.id for conversion, _ in plan.advised] == ["second"]


def test_plans_as_cheap_are_all_told_in_a_stable_order() -> None:
    kits = [kit(id_, "cover", "x", "z", 2) for id_ in ("d", "c", "e")]
    made = world(kit("a", "cover", "x", "y", 1), kit("b", "cover", "y", "z", 1), *kits)
    plan = planned(made, {"cover": "x"}, cover="z")
    assert isinstance(plan, Plan)
    assert [ids(plan), *map(ids, plan.others)] == [["c"], ["d"], ["e"]]
    assert not plan.more


def test_more_plans_as_cheap_than_are_listed_are_owned_up_to() -> None:
    made = world(*(kit(f"k{i}", "cover", "x", "z") for i in range(MOST_WAYS + 1)))
    plan = planned(made, {"cover": "x"}, cover="z")
    assert isinstance(plan, Plan)
    assert (1 + len(plan.others), plan.more) == (MOST_WAYS, True)


def test_plans_searched_apart_are_combined_the_first_id_first() -> None:
    made = world(
        *(kit(id_, "cover", "x", "z") for id_ in ("a", "d")),
        *(kit(id_, "drain", "m", "n") for id_ in ("b", "c")),
    )
    plan = planned(made, {"cover": "x", "drain": "m"}, cover="z", drain="n")
    assert isinstance(plan, Plan)
    assert [ids(plan), *map(ids, plan.others)] == [["a", "b"], ["a", "c"], ["b", "d"], ["c", "d"]]


def test_what_a_position_holds_may_not_be_known() -> None:
    made = world(kit("filter", "cover", "x", "y", needs="pump: wide"), kit("widen", "pump", "narrow", "wide"))
    found = refused(planned(made, {"cover": "x"}, cover="y"))
    assert (found.why, found.unknown) == (Why.UNMET, "pump")
    found = refused(planned(made, {"pump": "wide"}, cover="y"))
    assert (found.why, found.unknown) == (Why.NONE, "cover")


def test_a_need_in_the_way_is_named_also_where_it_is_not_the_last_step_that_has_it() -> None:
    made = world(
        kit("a", "cover", "x", "y", needs="pump: wide"),
        kit("b", "cover", "y", "z"),
        kit("c", "pump", "wide", "narrow"),
    )
    found = refused(planned(made, {"cover": "x", "pump": "narrow"}, cover="z"))
    assert found.why is Why.UNMET
    assert found.need is not None
    assert found.need[0].id == "a"
    assert found.unknown is None


def test_needs_that_can_be_had_one_at_a_time_only() -> None:
    """The valve stands in one place of the two that are needed at once."""
    made = world(
        kit("a", "cover", "x", "y", needs="valve: left; pump: wide"),
        kit("b", "pump", "narrow", "wide", needs="valve: right"),
        kit("c", "pump", "wide", "narrow", needs="valve: right"),
        kit("over", "valve", "left", "right"),
    )
    found = refused(planned(made, {"cover": "x", "pump": "narrow", "valve": "left"}, cover="y"))
    assert (found.why, found.position, found.proven) == (Why.NOT_TOGETHER, "cover", True)


def test_as_late_as_it_can_be_never_breaks_a_need() -> None:
    """The later kit would take the pump away that the earlier one needs."""
    made = world(kit("filter", "cover", "x", "y", needs="pump: wide"), kit("slim", "pump", "wide", "slim"))
    holds = {"cover": "x", "pump": "wide"}
    latest = as_late_as_it_can_be(made, reading(made), holds)
    assert latest == {"cover": "y", "pump": "wide"}
    assert ids(convert(made, reading(made), holds, latest)) == ["filter"]


def more(made: Record, text: str) -> Record:
    """A conversion that says something else besides."""
    return record(made.origin.data.decode() + text, made.kind, made.id)


ON, OFF = kit("on", "cover", "x", "y"), kit("off", "cover", "y", "x")
BOTH = "also: [{position: pump, from: [narrow], to: wide}]\n"
LATEST = {
    "the later in year first": (
        [more(ON, "year: 1935\n"), more(kit("later", "cover", "x", "z"), "year: 1938\n")],
        {"cover": "x"},
        {"cover": "z"},
    ),
    "what is restored is no later": (
        [more(ON, "year: 1935\n"), more(OFF, "year: 1979\n")],
        {"cover": "y"},
        {"cover": "y"},
    ),
    "where nobody knows the years neither is the later": ([ON, OFF], {"cover": "x"}, {"cover": "x"}),
    "a ring is gone round once": (
        [kit("in", "cover", "w", "x"), ON, kit("b", "cover", "y", "z"), kit("c", "cover", "z", "x")],
        {"cover": "w"},
        {"cover": "z"},
    ),
    "what it needs is not there": (
        [kit("on", "cover", "x", "y", needs="pump: wide"), kit("p", "pump", "wide", "slim")],
        {"cover": "x", "pump": "slim"},
        {"cover": "x", "pump": "slim"},
    ),
    "nothing is robbed": (
        [more(ON, "takes: [{position: pump, number: P}]\n"), kit("p", "pump", "old", "wide")],
        {"cover": "x", "pump": "wide"},
        {"cover": "x", "pump": "wide"},
    ),
    "what it changes elsewhere begins with something else": (
        [more(ON, BOTH), kit("p", "pump", "narrow", "wide"), kit("q", "pump", "wide", "slim")],
        {"cover": "x", "pump": "slim"},
        {"cover": "x", "pump": "slim"},
    ),
    "what it changes elsewhere is there": (
        [more(ON, BOTH), kit("p", "pump", "other", "narrow"), kit("q", "pump", "other", "wide")],
        {"cover": "x", "pump": "narrow"},
        {"cover": "y", "pump": "wide"},
    ),
}


@each_row(("kits", "holds", "latest"), LATEST.values())
def test_as_late_as_it_can_be(kits: list[Record], holds: dict[str, str], latest: dict[str, str]) -> None:
    made = world(*kits)
    assert as_late_as_it_can_be(made, reading(made), holds) == latest


# Against every way there is


@dataclass(frozen=True)
class Drawn:
    made: Register
    holds: dict[str, str]
    wanted: dict[str, str]


PLACES = ("cover", "drain", "pump", "vent")


def drawn(seed: int) -> Drawn:
    """A world of up to four positions with three assemblies each, and up to 18 conversions with needs."""
    chance = random.Random(seed)
    places = PLACES[: chance.choice([2, 3, 3, 4])]
    held = {place: [f"{place}{i}" for i in range(3)] for place in places}
    kits = []
    for i in range(chance.randint(6, 18)):
        place = chance.choice(places)
        start, to = chance.sample(held[place], 2)
        if chance.random() < 0.2:
            start = ", ".join(one for one in held[place] if one != to)
        needs = [
            ("?" if chance.random() < 0.15 else "")
            + f"{other}: {' or '.join(sorted(chance.sample(held[other], chance.choice([1, 1, 1, 2]))))}"
            for other in chance.sample(
                [p for p in places if p != place], chance.choice([0, 1, 1, 1, 2][: len(places) + 1])
            )
        ]
        span = chance.choice(["", "", "", "", "first: 5, last: 20", "first: [1, 3], last: 9"])
        kits.append(kit(f"k{i}", place, start, to, chance.randint(0, 3), "; ".join(needs), span))
    anchor = [
        kit(f"w{p}-{i}", p, held[p][i], held[p][i - 1], span="first: 19, last: 20")
        for p in places
        for i in range(3)
    ]
    goals = chance.sample(places, chance.choice([1, 1, 2]))
    holds = {place: f"{place}0" for place in places if chance.random() < 0.95 or place in goals}
    return Drawn(world(*kits, *anchor), holds, {goal: chance.choice(held[goal]) for goal in goals})


Marked = tuple[tuple[str, str, str | None], ...]  # position, assembly, the last conversion there


def every_way(one: Drawn, *, keep: bool) -> tuple[tuple[int, int], set[tuple[str, ...]]] | None:
    """The least cost and the sets of conversions that have it, by relaxing every state until nothing changes.

    Every state is the whole machine with the last conversion at each position: no bound, no heap, no groups.
    """
    taken = [c for c in one.made.conversions.values() if may_take(c)]
    start: Marked = tuple((place, id_, None) for place, id_ in sorted(one.holds.items()))
    best: dict[Marked, tuple[tuple[int, int], set[tuple[str, ...]]]] = {start: ((0, 0), {()})}
    changed = [start]
    while changed:
        state = changed.pop()
        cost, sets = best[state]
        for conversion, after in onward(taken, state):
            parts = sum(use.quantity for use in conversion.adds)
            further = (cost[0] + parts, cost[1] + 1)
            longer = {tuple(sorted((*ids, conversion.id))) for ids in sets}
            known = best.get(after)
            if known is None or further < known[0]:
                best[after] = (further, longer)
                changed.append(after)
            elif further == known[0] and not longer <= known[1]:
                known[1].update(longer)
                changed.append(after)
    ended = [found for state, found in best.items() if ends_well(one, state, keep=keep)]
    least = min((cost for cost, _ in ended), default=None)
    if least is None:
        return None
    return least, {ids for cost, sets in ended if cost == least for ids in sets}


def may_take(conversion: Conversion) -> bool:
    """Machine 1, by the bounds as they were typed."""
    first = conversion.serials[0].first
    return (first[0] if isinstance(first, tuple) else first) == 1


def onward(taken: list[Conversion], state: Marked) -> Iterator[tuple[Conversion, Marked]]:
    held = {place: id_ for place, id_, _ in state}
    for one in taken:
        met = all(held.get(n.position) in n.assemblies for n in one.needs if not n.advice)
        if held.get(one.position) in one.start and one.to != held[one.position] and met:
            yield one, tuple((p, one.to, one.id) if p == one.position else (p, a, c) for p, a, c in state)


def ends_well(one: Drawn, state: Marked, *, keep: bool) -> bool:
    held = {place: id_ for place, id_, _ in state}
    if not one.wanted.items() <= held.items():
        return False
    last = [one.made.conversions[id_] for _, _, id_ in state if id_]
    kept = (held.get(n.position) in n.assemblies for c in last for n in c.needs if not n.advice)
    return not keep or all(kept)


def follow(one: Drawn, plan: Plan) -> None:
    """The plan does what it says, step by step."""
    state: Marked = tuple((place, id_, None) for place, id_ in sorted(one.holds.items()))
    for step in plan.steps:
        assert may_take(step.conversion)
        state = {c.id: after for c, after in onward([step.conversion], state)}[step.id]
    assert ends_well(one, state, keep=True)


@pytest.mark.slow
def test_plans_are_the_cheapest_there_are_and_all_of_them() -> None:
    plans, ties, broken = 0, 0, 0
    for each in range(max(50, tries(500))):  # of fewer none breaks anything
        one = drawn(each)
        found = convert(one.made, reading(one.made), one.holds, one.wanted)
        reference = every_way(one, keep=True)
        if reference is None:
            assert isinstance(found, NoPlan), each
            assert found.proven, each
            # What is refused for its end alone is told so.
            assert (found.why is Why.BROKEN) == (every_way(one, keep=False) is not None), each
            broken += found.why is Why.BROKEN
            continue
        assert isinstance(found, Plan), each
        plans += len(found.steps) > 1
        ties += bool(found.others)
        cost, sets = reference
        told = [found, *found.others]
        for plan in told:
            assert (plan.new_parts, len(plan.steps)) == cost, each
            follow(one, plan)
        named = {tuple(sorted(ids(plan))) for plan in told}
        assert len(named) == len(told), each
        assert named <= sets, each
        assert found.more or named == sets, each
        assert [ids(plan) for plan in told] == sorted(ids(plan) for plan in told), each
    assert min(plans, ties, broken) >= tries(6)  # the worlds have all of these in them


def test_the_order_of_records_never_shows() -> None:
    for seed in range(tries(60)):
        one = drawn(seed)
        records = list(one.made.records)
        random.Random(seed).shuffle(records)
        other = build(records)
        first = convert(one.made, reading(one.made), one.holds, one.wanted)
        again = convert(other, reading(other), one.holds, one.wanted)
        assert first == again
