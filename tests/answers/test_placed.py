"""Several claims on one run: what they make of every single number, told by definition, in any order."""

from __future__ import annotations

from itertools import permutations
from typing import NamedTuple

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits, State
from spanbook.answers.bounds import reach_of
from spanbook.answers.placed import contradict, of_one_mouth, supports
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Record
from spanbook.register.statements import Fitting
from tests.support.registers import record, register


class Claim(NamedTuple):
    """An item of serials: its ends, the sources that say it, and whether it is to order."""

    first: tuple[int, int]
    last: tuple[int, int]
    by: tuple[str, ...] = ()
    option: bool = False


def several(id_: str, claims: list[Claim]) -> Record:
    lines = ""
    for one in claims:
        named = "".join(f"{{source: {source}}}, " for source in one.by)
        evidence = f", evidence: [{named}]" if named else ""
        option = ", option: true" if one.option else ""
        ends = f"first: {list(one.first)}, last: {list(one.last)}"
        anchor = "-".join(map(str, (*one.first, *one.last, *one.by)))
        lines += f"- {{series: xa, {ends}{evidence}{option}, anchor: a-{anchor}}}\n"
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n{lines}"
    return record(text, "assembly", id_)


SOURCES = [
    record(f"kind: source\nid: {id_}\ntitle: {id_}\nclass: {sort}\n", "source", id_)
    for id_, sort in (("book", "parts-book"), ("list", "ledger"), ("tale", "recollection"))
]


def world(*records: Record) -> Fits:
    return Fits(register(*SOURCES, *records))


def at(fits: Fits, number: int) -> tuple[State, dict[str, Covers]]:
    series = fits.register.series["xa"]
    segment = next(s for s in fits.segments(series, "cover") if number in s)
    return segment.state, {fit.assembly.id: fit.covers for fit in segment.fits}


def fittings(fits: Fits) -> tuple[Fitting, ...]:
    return fits.register.fittings["xa", "cover"]


def test_two_sources_that_print_other_bounds_of_one_assembly() -> None:
    fits = world(several("a", [Claim((1, 1), (5, 5), ("book",)), Claim((1, 1), (12, 12), ("list",))]))
    assert at(fits, 5) == (State.SETTLED, {"a": Covers.YES})
    assert at(fits, 10) == (State.UNSURE, {"a": Covers.MAYBE})
    assert at(fits, 13) == (State.BLANK, {})
    first, second = fittings(fits)
    assert fits.claims(first) == fits.claims(second) == (first, second)
    assert contradict(first, second)


def test_what_no_claim_says_was_not_there() -> None:
    fits = world(several("a", [Claim((1, 1), (5, 5), ("book",)), Claim((1, 1), (12, 12), ("list",))]))
    heard = {one.heard(13) for one in fits.placed(fits.register.series["xa"], "cover")}
    assert heard == {Covers.NO}


def test_what_one_says_surely_and_another_possibly_is_sure() -> None:
    fits = world(several("a", [Claim((1, 1), (5, 12), ("book",)), Claim((1, 1), (10, 10), ("list",))]))
    assert at(fits, 10) == (State.SETTLED, {"a": Covers.YES})
    assert at(fits, 12) == (State.UNSURE, {"a": Covers.MAYBE})
    vague, exact = fittings(fits)
    assert not contradict(vague, exact)
    assert supports(exact, vague)
    assert not supports(vague, exact)


def test_runs_that_do_not_meet_are_no_claims_on_one_another() -> None:
    claims = [Claim((1, 1), (5, 5)), Claim((6, 6), (12, 12)), Claim((1, 1), (12, 12), (), option=True)]
    fits = world(several("a", claims))
    assert [len(run) for run in fits.runs(fits.register.series["xa"], "cover")] == [1, 1, 1]
    assert at(fits, 3) == (State.CHOICE, {"a": Covers.YES})


def test_claims_are_on_one_run_by_way_of_another() -> None:
    claims = [Claim((1, 1), (5, 5)), Claim((10, 10), (15, 15)), Claim((4, 4), (11, 11))]
    for some in permutations(claims):
        fits = world(several("a", list(some)))
        (run,) = fits.runs(fits.register.series["xa"], "cover")
        assert [one.span.first for one in run] == [(1, 1), (4, 4), (10, 10)]


@pytest.mark.parametrize(
    ("mine", "theirs", "one"),
    [
        (("book",), ("list",), False),
        (("book",), ("book", "list"), True),
        (("book",), (), True),
        ((), ("book",), True),
        ((), (), True),
    ],
)
def test_what_comes_from_one_mouth(mine: tuple[str, ...], theirs: tuple[str, ...], one: bool) -> None:
    fits = world(
        several("a", [Claim((1, 1), (10, 10), mine)]), several("b", [Claim((10, 10), (20, 20), theirs)])
    )
    assert at(fits, 10)[0] is State.CONFLICT
    assert of_one_mouth(*fittings(fits)) == one


def test_who_speaks_against_a_statement_has_not_made_it() -> None:
    text = (
        "kind: assembly\nid: %s\ntitle: T\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 10, evidence: [{source: %s}, {source: %s, against: true}]}\n"
    )
    who = {"a": ("book", "list"), "b": ("list", "book")}
    made = (record(text % (id_, *by), "assembly", id_) for id_, by in who.items())
    assert not of_one_mouth(*fittings(world(*made)))


ENDS = st.tuples(st.integers(1, 20), st.integers(1, 20)).map(lambda pair: (min(pair), max(pair)))


def claim(one: tuple[int, int], other: tuple[int, int], source: str) -> Claim:
    return Claim(min(one, other), max(one, other), (source,))


CLAIM = st.builds(claim, ENDS, ENDS, st.sampled_from(["book", "list"]))
CLAIMS = st.lists(CLAIM, min_size=1, max_size=3, unique=True)


def expected(fits: Fits, number: int) -> tuple[State, dict[str, Covers]]:
    """By definition: every assembly's runs, and of each run what all its claims say of the number."""
    series = fits.register.series["xa"]
    covers: dict[str, Covers] = {}
    claimed = set()
    for run in fits.runs(series, "cover"):
        says = {reach_of(one.span, series).covers(number) for one in run}
        if says == {Covers.NO}:
            continue
        sure = Covers.YES in says and Covers.NO not in says
        covers[run[0].assembly.id] = Covers.YES if sure else Covers.MAYBE
        if Covers.YES in says:
            claimed.add(run[0].assembly.id)
    if len(claimed) > 1:
        return State.CONFLICT, covers
    if Covers.MAYBE in covers.values():
        return State.UNSURE, covers
    return State.SETTLED if covers else State.BLANK, covers


@given(CLAIMS, CLAIMS)
def test_every_number_by_definition(mine: list[Claim], theirs: list[Claim]) -> None:
    fits = world(several("a", mine), several("b", theirs))
    for number in fits.register.series["xa"].issued.numbers():
        assert at(fits, number) == expected(fits, number)


@given(CLAIMS, CLAIMS, st.randoms())
def test_the_order_of_claims_never_matters(mine: list[Claim], theirs: list[Claim], random: object) -> None:
    def told(*records: Record) -> list[object]:
        fits = world(*records)
        series = fits.register.series["xa"]
        return [
            (s.first, s.last, s.state, [(f.assembly.id, f.span, f.covers, f.says) for f in s.fits])
            for s in fits.segments(series, "cover")
        ]

    plain = told(several("a", mine), several("b", theirs))
    random.shuffle(mine)  # type: ignore[attr-defined]
    random.shuffle(theirs)  # type: ignore[attr-defined]
    assert told(several("b", theirs), several("a", mine)) == plain


@given(CLAIM, CLAIM)
def test_claims_contradict_where_no_run_can_be_as_both_say(one: Claim, other: Claim) -> None:
    fits = world(several("a", [one]), several("b", [other]))

    def runs(claim: Claim) -> set[tuple[int, int]]:
        return {
            (first, last)
            for first in range(claim.first[0], claim.first[1] + 1)
            for last in range(claim.last[0], claim.last[1] + 1)
        }

    mine, theirs = fittings(fits)
    assert contradict(mine, theirs) == (not runs(one) & runs(other))
    assert supports(mine, theirs) == (runs(one) <= runs(other))
