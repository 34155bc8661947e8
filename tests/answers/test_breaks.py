"""What a teardown says of the place of a break, or why it does not count."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break, NotCounted, all_breaks, breaks_at, numbers_seen, total_of
from spanbook.answers.changepoint import Observation, Rates
from spanbook.ground.intervals import Run
from spanbook.reading.records import Record
from tests.support.registers import assembly, lid, record, register
from tests.support.rows import each_row
from tests.support.tries import tries


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


@each_row(
    ("serial", "assembly", "condition", "wanted"),
    [
        ("XA 5", "early", "untouched", Observation(5, later=False, untouched=True, settled=True)),
        ("XA 6", "late", "unknown", Observation(6, later=True, untouched=False)),
        ("XA 6", "late", "likely-original", Observation(6, later=True, untouched=False, settled=True)),
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


def look(early: str, late: str, *teardowns: Record, last: str = "20") -> tuple[Observation, ...]:
    made = register(lid("early", early), lid("late", late), *teardowns, last=last)
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], Rates())
    assert found.unused == ()
    return found.report.observations


def test_a_worn_number_counts_where_every_reading_is_on_one_side() -> None:
    worn = seen("t", "XA ?", "early")  # 1 to 7
    assert look("first: 1, last: [11, 14]", "first: [12, 15], last: 20", worn) == (
        Observation(1, False, True),
    )
    worn = seen("t", "XA 1?", "late")  # 10 to 19: a break at 10 has all of them with the later
    assert look("first: 1, last: [4, 9]", "first: [5, 10], last: 20", worn) == (Observation(10, True, True),)


def test_a_machine_before_the_earlier_assembly_is_about_other_numbers() -> None:
    spans = "first: 4, last: [4, 7]", "first: [5, 8], last: 20"
    assert look(*spans, seen("t", "XA 3", "early")) == ()
    assert look(*spans, seen("t", "XA 4", "early")) == (Observation(4, False, True, True),)


def test_a_machine_past_the_later_assembly_is_about_other_numbers() -> None:
    spans = "first: 1, last: [4, 7]", "first: [5, 8], last: 12"
    assert look(*spans, seen("t", "XA 13", "late")) == ()
    assert look(*spans, seen("t", "XA 12", "late")) == (Observation(12, True, True, True),)


def test_another_series_says_nothing_even_of_the_same_number() -> None:
    spans = "first: 1, last: [14, 17]", "first: [15, 18], last: 20"
    assert look(*spans, seen("t", "XA 16", "early", series="xb")) == ()
    assert look(*spans, seen("t", "XA 16", "early")) == (Observation(16, False, True, True),)


def test_a_series_without_an_end_has_no_numbers_past_it() -> None:
    spans = "first: 1, last: [4, 7]", "first: [5, 8], last: open"
    assert look(*spans, seen("t", "XA 900", "late"), last="unknown") == (Observation(900, True, True, True),)


conditions = st.sampled_from(["untouched", "likely-original", "altered", "unknown"])
looks = st.tuples(st.integers(1, 20), st.booleans(), conditions)


@settings(max_examples=tries(50))
@given(st.lists(looks, max_size=6))
def test_every_machine_near_it_counts_or_is_told_why_not(drawn: list[tuple[int, bool, str]]) -> None:
    teardowns = [
        seen(f"t{i}", f"XA {number}", "late" if later else "early", condition)
        for i, (number, later, condition) in enumerate(drawn)
    ]
    found = one(*teardowns)
    issued = [(n, later, how) for n, later, how in drawn if n not in (8, 9)]
    # Of several looks at one machine the one in the best condition counts, of equals the first.
    best: dict[int, tuple[int, bool]] = {}
    for n, later, how in issued:
        rank = ["untouched", "likely-original", "unknown", "altered"].index(how)
        if how != "altered" and rank < best.get(n, (9, later))[0]:
            best[n] = rank, later
    counted = sorted((n, later, rank == 0) for n, (rank, later) in best.items())
    assert [(o.number, o.later, o.untouched) for o in found.report.observations] == counted
    told = sorted((u.teardown.serial, str(u.why)) for u in found.unused)
    altered = [(f"XA {n}", "altered") for n, _, how in issued if how == "altered"]
    others = [f"XA {n}" for n, _, how in issued if how != "altered"]
    twice = [(f"XA {n}", "same-machine") for n in best for _ in range(others.count(f"XA {n}") - 1)]
    assert told == sorted(altered + twice)


def test_the_printed_range_of_a_break_ends() -> None:
    assert one().report.claim == Run(5, 8)


def spans(*made: Record, last: str = "20") -> list[tuple[str, str, Run]]:
    """Each break at the cover: from which assembly, to which, and where it is printed to be."""
    fits = Fits(register(*made, last=last))
    found = breaks_at(fits, "cover", fits.register.series["xa"], Rates())
    return [(b.earlier.id, b.later.id, b.report.claim) for b in found]


@each_row(
    ("end", "start", "claim"),
    [
        ("5", "6", Run(6, 6)),
        ("[4, 7]", "[5, 8]", Run(5, 8)),
        ("[4, 11]", "[6, 14]", Run(6, 12)),  # where both allow it
        ("[2, 14]", "[6, 12]", Run(6, 12)),
        ("[4, 9]", "[10, 12]", Run(10, 10)),  # both allow one number
        ("5", "10", Run(6, 10)),  # a hole: anywhere in it
        ("12", "5", Run(5, 13)),  # both at once: anywhere there
        ("[7, 8]", "[8, 9]", None),  # of which none was issued
    ],
)
def test_where_a_break_is_printed_to_be(end: str, start: str, claim: Run | None) -> None:
    found = spans(lid("early", f"first: 1, last: {end}"), lid("late", f"first: {start}, last: 20"))
    assert found == ([("early", "late", claim)] if claim else [])


def test_a_break_that_may_be_anywhere_is_none() -> None:
    endless = lid("early", "first: 1, last: unknown"), lid("late", "first: unknown, last: open")
    assert spans(*endless, last="unknown") == []
    assert spans(*endless) == [("early", "late", Run(2, 20))]


def test_breaks_are_between_standards_in_the_order_of_their_numbers() -> None:
    made = (
        lid("third", "first: 15, last: 20"),
        lid("first", "first: 1, last: 5"),
        lid("second", "first: 6, last: 14"),
        lid("extra", "first: 4, last: 16, option: true"),
        lid("later-fitted", "first: 3, last: 18, fitted: field"),
    )
    wanted = [("first", "second", Run(6, 6)), ("second", "third", Run(15, 15))]
    assert spans(*made) == spans(*reversed(made)) == wanted


def test_one_assembly_in_two_spans_has_no_break_in_itself() -> None:
    text = (
        "kind: assembly\nid: twice\ntitle: T\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 5}\n- {series: xa, first: 12, last: 20, anchor: again}\n"
    )
    assert spans(record(text, "assembly", "twice")) == []


def test_every_break_is_found_or_those_of_some_positions() -> None:
    drain = [assembly("a", "first: 1, last: 5", "drain"), assembly("b", "first: 6, last: 20", "drain")]
    fits = Fits(register(lid("early", "first: 1, last: 5"), lid("late", "first: 6, last: 20"), *drain))
    for only, wanted in ((None, ["cover", "drain"]), (("drain",), ["drain"]), ((), [])):
        assert [b.position for b in all_breaks(fits, Rates(), only)] == wanted


def test_a_total_is_of_the_numbers_read_beyond_doubt() -> None:
    """Of 5, 5 again, 10 and a worn one, 5 and 10 count; they are the fifth and the eighth number issued, and
    8 + 8/2 - 1 = 11 is the eleventh, 13."""
    looks = seen("a", "XA 5", "early"), seen("b", "XA 5", "early"), seen("c", "XA 10", "early")
    made = register(lid("early", "first: 1, last: 20"), *looks, seen("d", "XA 1?", "early"))
    fits, series = Fits(made), made.series["xa"]
    assert numbers_seen(fits, series) == (5, 10)
    found = total_of(fits, series)
    assert found
    assert (found.seen, found.highest, found.estimate) == (2, 10, 13.0)
    assert total_of(fits, made.series["xb"]) is None
    elsewhere = Fits(register(seen("e", "XA 30", "early", series="xb")))
    assert numbers_seen(elsewhere, elsewhere.register.series["xa"]) == ()
