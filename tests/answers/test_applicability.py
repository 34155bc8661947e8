"""What fits: the five states by example, and segments against every single number."""

from __future__ import annotations

import random
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers import applicability, readings
from spanbook.answers.applicability import State
from spanbook.answers.bounds import bounds_of, reach_of
from spanbook.ground.intervals import Bound, Covers
from spanbook.reading.records import Assembly
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.registers import assembly, record, register


def states(made: Register) -> list[tuple[int, int | None, State]]:
    found = applicability.Fits(made).segments(made.series["xa"], "cover")
    return [(s.first, s.last, s.state) for s in found]


def test_settled_unsure_and_blank() -> None:
    made = register(assembly("a", "first: 2, last: [5, 11]"), assembly("b", "first: 15, last: open"))
    assert states(made) == [
        (1, 1, State.BLANK),
        (2, 5, State.SETTLED),
        (6, 11, State.UNSURE),  # 8 and 9 were skipped and belong to nothing
        (12, 14, State.BLANK),
        (15, 20, State.SETTLED),
    ]


@pytest.mark.parametrize("typed", ["about 8 ± 3", "about 8 +- 3", "about 8±3"])
def test_about_a_number_is_a_pair(typed: str) -> None:
    made = register(assembly("a", f"first: 2, last: {typed}"))
    assert states(made) == states(register(assembly("a", "first: 2, last: [5, 11]")))


def test_about_a_number_ends_where_the_series_does() -> None:
    made = register(assembly("a", "first: about 3 ± 10, last: about 18 ± 5"))
    (fitting,) = made.fittings["xa", "cover"]
    assert bounds_of(fitting.span, fitting.series) == (Bound(1, 13), Bound(13, 20))


def test_choice_is_a_standard_with_options_or_options_only() -> None:
    made = register(
        assembly("a", "first: 1, last: 10"),
        assembly("b", "first: 5, last: 10, option: true"),
        assembly("c", "first: 12, last: 14, option: true"),
    )
    assert [state for *_, state in states(made)] == [
        State.SETTLED,
        State.CHOICE,
        State.BLANK,
        State.CHOICE,
        State.BLANK,
    ]


def test_conflict_is_two_standards_surely() -> None:
    made = register(assembly("a", "first: 1, last: 10"), assembly("b", "first: 10, last: 20"))
    assert states(made) == [(1, 7, State.SETTLED), (10, 10, State.CONFLICT), (11, 20, State.SETTLED)]


def test_one_assembly_twice_is_no_conflict_and_unsure_where_the_claims_differ() -> None:
    text = (
        "kind: assembly\nid: a\ntitle: A\nposition: cover\nserials:\n- {series: xa, first: 1, last: 10}\n"
        "- {series: xa, first: 5, last: 20, anchor: late}\n"
    )
    made = register(record(text, "assembly", "a"))
    found = applicability.Fits(made).segments(made.series["xa"], "cover")
    assert [(s.first, s.last, s.state) for s in found] == [
        (1, 4, State.UNSURE),
        (5, 10, State.SETTLED),
        (11, 20, State.UNSURE),
    ]


def test_what_was_fitted_later_cuts_no_segments_but_is_told() -> None:
    made = register(
        assembly("a", "first: 1, last: 20"), assembly("b", "first: 5, last: [7, 12], fitted: field")
    )
    assert states(made) == [(1, 20, State.SETTLED)]
    (card, *_) = [applicability.Fits(made).card(r) for r in readings.read_serial(made, "xa 10")]
    assert [(f.assembly.id, f.covers) for f in card.positions[0].fits] == [
        ("a", Covers.YES),
        ("b", Covers.MAYBE),
    ]


def test_a_series_without_an_end() -> None:
    made = register(assembly("a", "first: 5, last: open"), last="unknown")
    assert states(made) == [(1, 4, State.BLANK), (5, None, State.SETTLED)]


def test_a_number_that_reads_in_two_series_gives_both() -> None:
    made = register()
    assert [(r.series.id, r.number, r.issued) for r in readings.read_serial(made, "xa-016")] == [
        ("xa", 16, True),
        ("xb", 16, True),
    ]
    assert [(r.series.id, r.issued) for r in readings.read_serial(made, "XA 8")] == [
        ("xa", False),
        ("xb", False),
    ]
    assert applicability.Fits(made).card(readings.read_serial(made, "XA 8")[0]).positions == ()


bounds = st.one_of(
    st.integers(1, 20).map(str),
    st.tuples(st.integers(1, 20), st.integers(1, 20)).map(lambda p: f"[{min(p)}, {max(p)}]"),
    st.just("unknown"),
)
spans = st.builds(
    lambda first, last, option, fitted: f"first: {first}, last: {last}, option: {option}, fitted: {fitted}",
    bounds,
    bounds | st.just("open"),
    st.sampled_from(["true", "false"]),
    st.sampled_from(["factory", "factory", "service"]),
)


@given(st.lists(spans, max_size=5))
def test_segments_tile_the_numbers_and_say_what_every_number_says(texts: list[str]) -> None:
    made = register(*(assembly(f"a{i}", text) for i, text in enumerate(texts)))
    series = made.series["xa"]
    found = applicability.Fits(made).segments(series, "cover")
    for number in range(0, 23):
        holding = [s for s in found if number in s and number in series.issued]
        assert len(holding) == (number in series.issued)
        for segment in holding:
            alone = {
                (f.assembly.id, reach_of(f.span, series).covers(number))
                for f in made.fittings.get(("xa", "cover"), ())
                if f.span.fitted == "factory"
            }
            assert {(f.assembly.id, f.covers) for f in segment.fits} == {
                pair for pair in alone if pair[1] is not Covers.NO
            }
            assert segment.state is applicability.state_of(segment.fits)
    for left, right in pairwise(found):
        assert left.last is not None
        assert left.last < right.first
        assert left.fits != right.fits


def test_positions_of_a_machine(tmp_path: Path) -> None:
    made = worlds.check(tmp_path).register
    assert applicability.positions_of(made, made.machines["x-one"]) == ("body/cover", "body/drain", "pump")


@pytest.mark.parametrize("seed", range(5))
def test_the_order_of_records_never_shows(seed: int) -> None:
    records = [assembly(f"a{i}", f"first: {i + 1}, last: [{i + 2}, 20]") for i in range(6)]
    plain = states(register(*records))
    random.Random(seed).shuffle(records)
    assert states(register(*records)) == plain
    assert all(isinstance(r, Assembly) for r in records)
