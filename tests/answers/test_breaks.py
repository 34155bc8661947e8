"""What a teardown says of the place of a break, or why it does not count."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break, NotCounted, breaks_at
from spanbook.answers.changepoint import Observation, Rates
from spanbook.ground.intervals import Run
from spanbook.reading.records import Record
from tests.support.registers import lid, record, register


def seen(id_: str, serial: str, assembly: str, condition: str = "untouched", series: str = "xa") -> Record:
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: {serial}\nseries: {series}\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {assembly}}}]\n"
    )
    return record(text, "teardown", id_)


def one(*teardowns: Record, last: str = "20") -> Break:
    """Early gives way to late somewhere from 5 to 8, of which 8 and 9 were never issued."""
    spans = lid("early", "first: 1, last: [4, 7]"), lid("late", f"first: [5, 8], last: {last}")
    made = register(*spans, lid("other", "first: unknown, last: unknown"), *teardowns)
    found = breaks_at(Fits(made), "cover", made.series["xa"], Rates())
    return next(b for b in found if (b.earlier.id, b.later.id) == ("early", "late"))


@pytest.mark.parametrize(
    ("serial", "assembly", "condition", "wanted"),
    [
        ("XA 5", "early", "untouched", Observation(5, later=False, untouched=True)),
        ("XA 6", "late", "unknown", Observation(6, later=True, untouched=False)),
        ("XA 1?", "late", "likely-original", Observation(10, later=True, untouched=False)),  # 10 to 19
        ("XA 5", "early", "altered", NotCounted.ALTERED),
        ("XA ?", "early", "untouched", NotCounted.EITHER_SIDE),  # 1 to 7
        ("XA ?", "early", "altered", NotCounted.ALTERED),
    ],
)
def test_what_a_teardown_says(
    serial: str, assembly: str, condition: str, wanted: Observation | NotCounted
) -> None:
    found = one(seen("t", serial, assembly, condition))
    told = [*found.report.observations, *(unused.why for unused in found.unused)]
    assert told == [wanted]
    assert all(unused.teardown.id == "t" for unused in found.unused)


@pytest.mark.parametrize(
    "elsewhere",
    [
        seen("t", "XA 8", "early"),  # never issued
        seen("t", "XA 30", "early", series="xb"),
        seen("t", "XA 15", "late"),  # past the last with the later
        seen("t", "XA 1?", "late"),  # perhaps past it
        seen("t", "XA 5", "other"),
    ],
)
def test_what_is_about_other_numbers_is_not_told(elsewhere: Record) -> None:
    found = one(elsewhere, last="12")
    assert (found.report.observations, found.unused) == ((), ())


conditions = st.sampled_from(["untouched", "likely-original", "altered", "unknown"])
looks = st.tuples(st.integers(1, 20), st.booleans(), conditions)


@settings(deadline=None, max_examples=50)
@given(st.lists(looks, max_size=6))
def test_every_machine_near_it_counts_or_is_told_why_not(drawn: list[tuple[int, bool, str]]) -> None:
    teardowns = [
        seen(f"t{i}", f"XA {number}", "late" if later else "early", condition)
        for i, (number, later, condition) in enumerate(drawn)
    ]
    found = one(*teardowns)
    issued = [(n, later, how) for n, later, how in drawn if n not in (8, 9)]
    counted = sorted((n, later, how == "untouched") for n, later, how in issued if how != "altered")
    assert [(o.number, o.later, o.untouched) for o in found.report.observations] == counted
    assert len(found.unused) == sum(how == "altered" for *_, how in issued)


def test_the_printed_range_of_a_break_ends() -> None:
    assert one().report.claim == Run(5, 8)
