"""Places inside assemblies: what fits, against every world that the records leave open."""

from __future__ import annotations

from fractions import Fraction
from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits, State
from spanbook.answers.assumed import Assumed
from spanbook.answers.diff.compute import compare
from spanbook.answers.questions import About
from spanbook.answers.readings import reading_of
from spanbook.answers.story import Kind
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register
from tests.support.registers import MACHINE, assembly, record

NUMBERS = (1, 2, 3, 4, 5, 6)
TREE = """\
kind: positions
positions:
- id: filter
  title: Filter
  positions:
  - id: valve
    title: Valve
    within: [%s]
    positions:
    - id: seat
      title: Seat
      within: [%s]
"""
Ends = tuple[int, int, int, int]  # the lowest and the highest first number, and the same of the last


def made(*records: Record, within: str = "b", seats: str = "v") -> Register:
    machine = (MACHINE % "6").replace(", skipped: [[8, 9]]", "")
    tree = record(TREE % (within, seats), "positions", "positions")
    return build([record(machine, "machine", "x"), tree, *records])


def placed(id_: str, ends: Ends, more: str = "", position: str = "filter") -> Record:
    a, b, c, d = ends
    return assembly(id_, f"first: [{a}, {b}], last: [{c}, {d}]{more}", position)


def states(register: Register, position: str) -> list[tuple[int, int | None, State, Covers]]:
    found = Fits(register).segments(register.series["xa"], position)
    return [(one.first, one.last, one.state, one.there) for one in found]


def test_a_place_is_where_one_of_its_assemblies_is_and_nowhere_else() -> None:
    register = made(
        assembly("a", "first: 1, last: 2", "filter"),
        assembly("b", "first: 3, last: [4, 5]", "filter"),
        assembly("v", "first: 3, last: open", "filter/valve"),
    )
    assert states(register, "filter/valve") == [
        (1, 2, State.NO_PLACE, Covers.NO),
        (3, 4, State.SETTLED, Covers.YES),
        (5, 6, State.UNSURE, Covers.MAYBE),
    ]
    # Where there is no valve there is no seat in one.
    assert states(register, "filter/valve/seat") == [
        (1, 2, State.NO_PLACE, Covers.NO),
        (3, 4, State.BLANK, Covers.YES),
        (5, 6, State.UNSURE, Covers.MAYBE),
    ]


def test_from_one_sure_standard_to_the_next_a_machine_had_one_of_the_two() -> None:
    register = made(
        assembly("a", "first: 1, last: [2, 4]", "filter"),
        assembly("c", "first: [3, 5], last: open", "filter"),
    )
    assert states(register, "filter/valve") == [(1, 6, State.NO_PLACE, Covers.NO)]


def test_what_is_surely_where_there_is_no_place_for_it_is_a_conflict() -> None:
    register = made(
        assembly("a", "first: 1, last: 3", "filter"),
        assembly("b", "first: 4, last: open", "filter"),
        assembly("v", "first: 3, last: open", "filter/valve"),
        assembly("w", "first: [1, 2], last: [1, 2]", "filter/valve"),
    )
    assert states(register, "filter/valve") == [
        (1, 2, State.NO_PLACE, Covers.NO),
        (3, 3, State.CONFLICT, Covers.NO),
        (4, 6, State.SETTLED, Covers.YES),
    ]


def test_what_came_later_is_told_where_the_works_left_no_place() -> None:
    register = made(
        assembly("a", "first: 1, last: open", "filter"),
        assembly("v", "first: 1, last: open, fitted: field", "filter/valve"),
    )
    fits = Fits(register)
    place = fits.at(reading_of(register.series["xa"], 4), "filter/valve")
    assert (place.state, [fit.assembly.id for fit in place.fits]) == (State.NO_PLACE, ["v"])


ends = (
    st.tuples(*[st.sampled_from(NUMBERS)] * 4)
    .map(lambda four: (min(four[:2]), max(four[:2]), min(four[2:]), max(four[2:])))
    .filter(lambda four: four[0] <= four[3])
)
fittings = st.dictionaries(st.sampled_from("abc"), st.tuples(ends, st.booleans()), max_size=3)
subsets = st.sets(st.sampled_from("abc"), min_size=1).map(sorted)


def had(spans: dict[str, Ends], world: tuple[tuple[int, int], ...], number: int) -> set[str]:
    """What a machine had in one world: a first and a last number for every span."""
    return {id_ for id_, (first, last) in zip(spans, world, strict=True) if first <= number <= last}


def every_world(spans: dict[str, Ends]) -> list[tuple[tuple[int, int], ...]]:
    each = (
        [(first, last) for first, last in product(range(a, b + 1), range(c, d + 1)) if first <= last]
        for a, b, c, d in spans.values()
    )
    return list(product(*each))


def by_brute_force(spans: dict[str, Ends], options: set[str], within: set[str], number: int) -> Covers:
    """Whether the place was on a number, world by world."""
    worlds = every_world(spans)
    at = {n: [had(spans, world, n) for world in worlds] for n in NUMBERS}
    sure = [n for n in NUMBERS if any(all(id_ in one for one in at[n]) for id_ in set(spans) - options)]
    possible = [n for n in NUMBERS if any(at[n])]
    around = [s for s in sure if s <= number][-1:], [s for s in sure if s >= number][:1]
    between = range(around[0][0], around[1][0] + 1) if all(around) else ()
    known = bool(between) and all(n in possible for n in between)
    found = set()
    for held in at[number]:
        if held <= options and not (known and not held):
            found.add("unknown")  # nothing, or what went beside something that is not recorded
        if held:
            found |= {"there" if id_ in within else "not" for id_ in held}
    if known:
        found.discard("unknown")
    return {frozenset(["there"]): Covers.YES, frozenset(["not"]): Covers.NO}.get(
        frozenset(found), Covers.MAYBE
    )


@given(fittings, subsets, subsets, st.dictionaries(st.sampled_from("vw"), ends, max_size=2))
def test_where_a_place_is_and_what_it_holds_by_brute_force(
    filters: dict[str, tuple[Ends, bool]], within: list[str], seats: list[str], valves: dict[str, Ends]
) -> None:
    records = [
        *(placed(id_, one, f", option: {str(option).lower()}") for id_, (one, option) in filters.items()),
        *(placed(id_, one, position="filter/valve") for id_, one in valves.items()),
    ]
    register = made(*records, within=", ".join(within), seats="v")
    fits, series = Fits(register), register.series["xa"]
    spans = {id_: one for id_, (one, _) in filters.items()}
    options = {id_ for id_, (_, option) in filters.items() if option}
    cut = fits.segments(series, "filter/valve")
    assert [n for one in cut for n in range(one.first, one.last + 1)] == list(NUMBERS)  # type: ignore[operator]
    for number in NUMBERS:
        there = by_brute_force(spans, options, set(within), number)
        assert fits.there(series, "filter/valve").covers(number) is there, number
        (segment,) = (one for one in cut if number in one)
        assert segment.there is there
        worlds = every_world(valves)
        each = [had(valves, world, number) for world in worlds]
        sure = {id_ for id_ in valves if all(id_ in one for one in each)}
        possible = {id_ for id_ in valves if any(id_ in one for one in each)}
        told = {fit.assembly.id: fit.covers for fit in segment.fits}
        match there:
            case Covers.NO:
                assert segment.state is (State.CONFLICT if sure else State.NO_PLACE)
            case Covers.MAYBE:
                assert set(told) == possible
                assert set(told.values()) <= {Covers.MAYBE}
                assert segment.state is (State.CONFLICT if len(sure) > 1 else State.UNSURE)
            case Covers.YES:
                assert told == {i: Covers.YES if i in sure else Covers.MAYBE for i in possible}
        # The seat is in the valve v alone: surely where it is all that can be there.
        seat = fits.there(series, "filter/valve/seat").covers(number)
        assert seat is _both(there, by_brute_force(valves, set(), {"v"}, number))


def _both(one: Covers, other: Covers) -> Covers:
    return next((each for each in (Covers.NO, Covers.MAYBE) if each in (one, other)), Covers.YES)


FIRST = assembly("a", "first: 1, last: 3", "filter")
SECOND = assembly("b", "first: 4, last: open", "filter")
VALVE = assembly("v", "first: unknown, last: open", "filter/valve")
KIT = record(
    "kind: conversion\nid: kit\ntitle: Kit\nposition: filter\nfrom: [a]\nto: b\n"
    "also: [{position: filter/valve, to: w}]\nserials: [{series: xa, first: 1, last: 2}]\n",
    "conversion",
    "kit",
)
LATER = assembly("w", "first: unknown, last: unknown, fitted: service", "filter/valve")


def answers(*records: Record) -> Answers:
    return Answers(made(FIRST, SECOND, VALVE, *records))


def test_what_is_inside_was_never_where_there_was_no_place_and_nothing_brings_one() -> None:
    found = answers(KIT, LATER)
    series = found.register.series["xa"]
    held = found.ever.held((series, "filter/valve"))
    assert {id_: list(numbers.numbers()) for id_, numbers in held.items()} == {
        "v": [1, 2, 4, 5, 6],
        "w": [1, 2, 4, 5, 6],
    }


def test_what_is_found_where_there_was_no_place_came_by_a_conversion_or_the_record_is_wrong() -> None:
    found = answers(KIT, LATER)
    held = {"filter/valve": found.register.assemblies["w"]}
    (one,) = found.explainer.explain(reading_of(found.register.series["xa"], 1), held, "unknown").positions
    likelihoods = {story.kind: story.likelihood for story in one.stories}
    assert likelihoods[Kind.WORKS] == 0
    assert likelihoods[Kind.CONVERSION] == 1
    (wrong,) = (story for story in one.stories if story.kind is Kind.RECORD)
    assert [fit.assembly.id for fit in wrong.fits] == ["a"]  # what is around the place
    (none,) = (
        answers(LATER)
        .explainer.explain(reading_of(found.register.series["xa"], 1), held, "unknown")
        .positions
    )
    assert {story.kind: story.likelihood for story in none.stories}[Kind.CONVERSION] == 0


def test_what_is_recorded_inside_is_what_would_be_wrong_where_there_is_a_place() -> None:
    found = answers(LATER)
    held = {"filter/valve": found.register.assemblies["w"]}
    (one,) = found.explainer.explain(reading_of(found.register.series["xa"], 4), held, "unknown").positions
    (wrong,) = (story for story in one.stories if story.kind is Kind.RECORD)
    assert [fit.assembly.id for fit in wrong.fits] == ["v"]


def test_a_break_inside_says_nothing_where_the_place_is_only_perhaps_there() -> None:
    """The filter is surely there on 3 and 4, and the break between its valves lies at 4 to 6."""
    filters = assembly("a", "first: 1, last: 2", "filter"), assembly("b", "first: 3, last: [4, 6]", "filter")
    early = assembly("v", "first: 3, last: [3, 5]", "filter/valve")
    late = assembly("w", "first: [4, 6], last: open", "filter/valve")
    found = Answers(made(*filters, early, late))
    series, held = found.register.series["xa"], {"filter/valve": found.register.assemblies["w"]}
    for number, share, breaks in ((4, Fraction(1, 3), 1), (5, Fraction(1, 3), 0), (6, Fraction(1, 2), 0)):
        (one,) = found.explainer.explain(reading_of(series, number), held, "unknown").positions
        (works,) = (story for story in one.stories if story.kind is Kind.WORKS)
        assert (works.likelihood, len(works.breaks)) == (share, breaks)


def test_nobody_is_asked_for_what_is_inside_where_there_is_no_place() -> None:
    found = answers()
    asked = {
        (question.about, question.first, question.last)
        for question in found.questions
        if question.position == "filter/valve"
    }
    assert asked == {(About.UNSUPPORTED, 4, 6)}
    bare = Answers(made(FIRST, SECOND))
    blank = [question for question in bare.questions if question.position == "filter/valve"]
    assert [(question.about, question.first) for question in blank] == [(About.BLANK, 4)]


def test_a_change_around_a_place_changes_what_is_told_of_it() -> None:
    before = made(FIRST, SECOND, assembly("v", "first: 4, last: open", "filter/valve"))
    after = build(
        [
            *(one for one in before.records if one is not SECOND),
            assembly("b", "first: 5, last: open", "filter"),
        ]
    )
    changes = [
        (one.position, one.change.first, one.change.last)
        for one in compare(before, after, ((), ()), Assumed()).answers
        if one.position == "filter/valve"
    ]
    assert changes == [("filter/valve", 4, 4)]
