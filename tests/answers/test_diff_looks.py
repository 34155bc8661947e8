"""What was looked at and what stands otherwise, by which machine it is and by what was known."""

from __future__ import annotations

from spanbook.answers.reasons import Weight
from spanbook.reading.records import Record
from tests.answers.test_diff_grounds import BOOK, EARLY, LATE, world
from tests.support.comparisons import compared, seen
from tests.support.registers import lid, record, teardown, unit

COVER = (("cover", Weight.SEEN),)


def looked(*records: Record) -> list[tuple[str, bool]]:
    """What is new in a world where nothing was looked at, and whether it is the first of its machine."""
    found = compared(world(EARLY, LATE), world(EARLY, LATE, *records)).looks
    return [(one.teardown.id, one.first) for one in found]


def on_frame(serial: str) -> Record:
    """The same cover seen under the other number of a machine."""
    head = f"kind: teardown\nid: frame\ndate: 2026-01-03\nseen-by: osk\nserial: {serial}\nseries: xb\n"
    return record(
        f"{head}condition: untouched\nfound: [{{position: cover, assembly: late}}]\n", "teardown", "frame"
    )


def test_another_machine_was_looked_at_before_and_this_one_never() -> None:
    (one,) = compared(world(EARLY, seen(4, "early")), world(EARLY, seen(4, "early"), seen(3, "early"))).looks
    assert (one.teardown.id, one.first, one.shown) == ("x-3-osk", True, COVER)
    assert looked(seen(3, "early"), seen(4, "early")) == [("x-3-osk", True), ("x-4-osk", True)]


def test_one_machine_under_either_of_its_numbers_is_looked_at_for_the_first_time_once() -> None:
    assert looked(seen(18, "late"), on_frame("XA 25")) == [("frame", True), ("x-18-osk", True)]
    both = unit("XA 18, series: xa", "XA 25, series: xb")
    assert looked(both, seen(18, "late"), on_frame("XA 25")) == [("frame", False), ("x-18-osk", False)]


def test_of_a_number_that_cannot_be_read_nobody_knows_whether_it_is_the_first() -> None:
    worn = teardown("XA 1?", "xa")
    assert looked(worn) == [("t", False)]
    (one,) = compared(world(EARLY), world(EARLY, worn)).looks
    assert (one.reading, one.shown) == (None, ()), "a find that names no assembly shows nothing of one"


def test_what_was_known_against_a_statement_is_no_news() -> None:
    old, new = (world(lid("early", "first: 1, last: 10", e), LATE, seen(18, "early")) for e in (BOOK, ""))
    assert compared(old, new).against == ()
    (one,) = compared(world(EARLY, LATE), old).against
    assert one.reason.by.id == "x-18-osk"


def test_a_new_statement_is_contradicted_by_what_was_seen_before() -> None:
    known = seen(18, "early")
    found = compared(world(EARLY, known), world(EARLY, LATE, known))
    (one,) = found.against
    assert (one.reason.by.id, one.fresh, [s.record.id for s in one.statements]) == (
        "x-18-osk",
        False,
        ["late"],
    )


def test_a_reason_that_stays_neither_came_nor_went() -> None:
    (one,) = compared(world(EARLY), world(EARLY, seen(3, "early"))).standings
    assert ([reason.by.id for reason in one.gained], one.lost) == (["x-3-osk"], ())
    (back,) = (
        change
        for change in compared(world(EARLY, seen(3, "early")), world(EARLY)).standings
        if change.record == "early"
    )
    assert ([reason.by.id for reason in back.lost], back.gained) == (["x-3-osk"], ())


def test_how_a_retired_assembly_stands_is_not_told() -> None:
    text = "kind: assembly\nid: early\ntitle: early\nretired: Never was\nposition: cover\nserials:\n"
    span = f"- {{series: xa, first: 1, last: [10, 13], evidence: [{BOOK}]}}\n"
    retired = record(text + span, "assembly", "early")
    assert compared(world(EARLY, seen(3, "early")), world(retired, seen(3, "early"))).standings == ()
