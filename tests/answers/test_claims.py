"""Several spans of one assembly: the runs that they are claims on, and what they say of the break."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break, NotCounted, breaks_at
from spanbook.answers.changepoint import Rates, Weights
from spanbook.answers.claims import runs_of
from spanbook.ground.intervals import Run
from spanbook.reading.records import Record
from tests.support.registers import record, register
from tests.support.rows import each_row

SOURCES = [
    record(f"kind: source\nid: {id_}\ntitle: {id_}\nclass: {sort}\n", "source", id_)
    for id_, sort in (("book", "parts-book"), ("letter", "service-letter"), ("tale", "recollection"))
]


def spans(id_: str, *items: str) -> Record:
    """An assembly with several spans: `1..5 book` is said by the book, `?` an end nobody knows."""
    lines = []
    for i, item in enumerate(items):
        run, *who = item.split()
        first, last = (f"[{end.replace('-', ', ')}]" if "-" in end else end for end in run.split(".."))
        ends = f"first: {first}, last: {last}".replace("?", "unknown")
        told = ", ".join(f"{{source: {w}}}" for w in who if w in ("book", "letter", "tale"))
        told += "".join(
            f"{', ' if told else ''}{{source: {w[1:]}, against: true, note: no}}"
            for w in who
            if w.startswith("!")
        )
        evidence = f", evidence: [{told}]" if told else ""
        more = "".join(f", {w}" for w in who if ":" in w).replace(":", ": ")
        lines.append(f"- {{series: xa, {ends}, anchor: {id_}-{i}{evidence}{more}}}\n")
    text = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n{''.join(lines)}"
    return record(text, "assembly", id_)


def seen(serial: str, assembly: str) -> Record:
    id_ = f"t-{serial}".replace("?", "x")
    text = (
        f"kind: teardown\nid: {id_}\ndate: 2024\nseen-by: m\nserial: XA {serial}\nseries: xa\n"
        f"condition: untouched\nfound: [{{position: cover, assembly: {assembly}}}]\n"
    )
    return record(text, "teardown", id_)


def one(*records: Record, last: str = "20", weights: Weights | None = None) -> Break:
    made = register(*SOURCES, *records, last=last)
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], Rates(), *([weights] if weights else []))
    return found


def told(found: Break) -> list[tuple[int, int, list[str]]]:
    return [(c.run.first, c.run.last, [s.id for s in c.sources]) for c in found.claims]


@each_row(
    ("items", "wanted"),
    [
        (["1..5", "3..7"], [[(1, 5), (3, 7)]]),
        (["1..5", "6..7"], [[(1, 5)], [(6, 7)]]),  # they touch and do not meet
        (["1..5", "5..7"], [[(1, 5), (5, 7)]]),
        (["12..14", "1..5"], [[(1, 5)], [(12, 14)]]),
        (["1..5", "4..11", "10..14"], [[(1, 5), (4, 11), (10, 14)]]),  # by way of the one between
        (["1..12", "2..3", "10..14"], [[(1, 12), (2, 3), (10, 14)]]),  # the longest holds them together
        (["1..4-6", "6..7"], [[(1, (4, 6)), (6, 7)]]),  # possibly is enough
        (["1..5", "3..7 fitted:service"], [[(1, 5)], [(3, 7)]]),
        (["1..5", "3..7 option:true"], [[(1, 5)], [(3, 7)]]),
    ],
)
def test_spans_that_meet_are_claims_on_one_run(items: list[str], wanted: list[object]) -> None:
    for order in (items, items[::-1]):
        made = register(*SOURCES, spans("early", *order))
        found = runs_of(made.fittings["xa", "cover"], made.series["xa"])
        assert sorted([(f.span.first, f.span.last) for f in run] for run in found) == wanted


@each_row(
    ("early", "late", "wanted"),
    [
        # One on each side: as printed, whoever says it.
        (["1..5 book"], ["6..20 letter"], [(6, 6, ["book", "letter"])]),
        (["1..5 book"], ["10..20 letter"], [(6, 10, ["book", "letter"])]),
        # Each source by itself.
        (["1..5 book", "1..12 tale"], ["6..20 book", "13..20 tale"], [(6, 6, ["book"]), (13, 13, ["tale"])]),
        (["1..5 book", "1..12 tale"], ["6..20 book"], [(6, 6, ["book"]), (13, 13, ["tale"])]),
        (["1..5 book"], ["6..20 book", "13..20 tale"], [(6, 6, ["book"]), (13, 13, ["tale"])]),
        # With the only one there, where both allow a number.
        (["1..5 book", "1..10-14 tale"], ["11-13..20 book"], [(6, 13, ["book"]), (11, 13, ["tale"])]),
        (["1..10-14 book"], ["12-20..20 tale", "13..20 book"], [(12, 15, ["tale"]), (13, 13, ["book"])]),
        # Nobody named, and more than one on the other side.
        (["1..5", "1..12"], ["6..20", "13..20"], [(6, 6, []), (13, 13, [])]),
        # The same numbers are one claim of both.
        (["1..5 book", "1..5 letter"], ["6..20 book", "6..20 letter"], [(6, 6, ["book", "letter"])]),
        # Who does not know says nothing, but what the other side says counts.
        (["1..5 book", "1..? tale"], ["6..20 book"], [(6, 6, ["book", "tale"])]),
        (
            ["1..5 book", "1..12 letter", "1..? tale"],
            ["6..20 book", "13..20 letter"],
            [(6, 6, ["book"]), (13, 13, ["letter"])],
        ),
        (
            ["1..5 book", "1..12 letter"],
            ["6..20 book", "13..20 letter", "?..20 tale"],
            [(6, 6, ["book"]), (13, 13, ["letter"])],
        ),
        # Where nobody knows when the next began, it is known that it did before it ended.
        (["1..? book"], ["?..12 book"], [(2, 12, ["book"])]),
        (["1..? book"], ["?..11-12 letter"], [(2, 12, ["book", "letter"])]),
        # A source against it does not say where it ends.
        (["1..5 book", "1..12 !book"], ["6..20 book"], [(6, 6, ["book"]), (13, 13, [])]),
    ],
)
def test_what_claims_say_of_a_break(
    early: list[str], late: list[str], wanted: list[tuple[int, int, list[str]]]
) -> None:
    assert told(one(spans("early", *early), spans("late", *late))) == wanted
    assert told(one(spans("late", *late[::-1]), spans("early", *early[::-1]))) == wanted


def test_a_machine_that_is_named_prints_no_break() -> None:
    early = spans("early", "1..5 book")
    text = early.origin.data.decode().replace("{source: book}", "{source: book}, {teardown: t-3}")
    found = one(record(text, "assembly", "early"), spans("late", "6..20 book"), seen("3", "early"))
    assert told(found) == [(6, 6, ["book"])]


def test_claims_alike_stand_in_the_order_of_their_anchors() -> None:
    made = register(*SOURCES, spans("early", "1..5", "1..5"))
    (run,) = runs_of(reversed(made.fittings["xa", "cover"]), made.series["xa"])
    assert [one.span.anchor for one in run] == ["early-0", "early-1"]
    text = "kind: assembly\nid: early\ntitle: E\nposition: cover\nserials:\n"
    bare = register(record(text + "- {series: xa, first: 1, last: 5}\n" * 2, "assembly", "early"))
    ((one, other),) = runs_of(bare.fittings["xa", "cover"], bare.series["xa"])
    assert one.span.anchor is other.span.anchor is None


def test_a_claim_without_an_end_is_none() -> None:
    early = spans("early", "1..5 book", "1..12 tale", "1..open letter")
    found = one(early, spans("late", "6..open book", "13..open tale"), last="unknown")
    assert told(found) == [(6, 6, ["book"]), (13, 13, ["tale"])]
    assert found.report.none
    # Nobody knows how far the series ran: none of them is anywhere up to the last claim.
    assert found.report.none.run == Run(2, 13)


EARLY = spans("early", "1..5 book", "1..12 tale")
LATE = spans("late", "6..20 book", "13..20 tale")


def test_disagreeing_claims_weigh_by_the_classes_of_their_sources() -> None:
    """The book four, the tale one; one in twenty holds neither, anywhere from 2 to 20."""
    found = one(EARLY, LATE)
    assert [share.before for share in found.report.shares] == [Fraction(19, 25), Fraction(19, 100)]
    assert found.report.none
    assert (found.report.none.run, found.report.none.before) == (Run(2, 20), Fraction(1, 20))
    assert found.report.claim == Run(6, 13)
    assert [claim for claim, _ in found.disagreeing] == list(found.claims)
    own = Weights({"parts-book": Fraction(1), "recollection": Fraction(3)}, Fraction(0))
    weighed = one(EARLY, LATE, weights=own)
    assert [share.before for share in weighed.report.shares] == [Fraction(1, 4), Fraction(3, 4)]
    assert weighed.weights == own


def test_claims_that_agree_are_not_weighed() -> None:
    found = one(
        spans("early", "1..4-9 book", "1..6-12 tale"), spans("late", "5-10..20 book", "7-13..20 tale")
    )
    assert told(found) == [(5, 10, ["book"]), (7, 13, ["tale"])]
    assert (found.report.claim, found.disagreeing) == (Run(7, 10), ())


def test_looks_count_all_over_what_is_possible() -> None:
    """A worn number stands for 2 and up: no break from 2 to 20 has all of these on one side."""
    worn = seen("1?", "late")
    assert [u.why for u in one(EARLY, LATE, worn).unused] == [NotCounted.EITHER_SIDE]
    clear = one(EARLY, LATE, seen("10", "late"), seen("3", "early"))
    assert [o.number for o in clear.report.observations] == [3, 10]
    before, after = zip(*((share.before, share.after) for share in clear.report.shares), strict=True)
    assert after[0] > before[0]
    assert after[1] < before[1]


def test_the_numbers_near_a_break_are_those_of_all_claims() -> None:
    early = spans("early", "4..7 book", "2..12 tale")
    late = spans("late", "8..14 book", "13..18 tale")
    looks = [seen(str(n), "early") for n in (1, 2, 18, 19)]
    found = one(early, late, *looks)
    assert [o.number for o in found.report.observations] == [2, 18]
    assert found.report.none
    assert found.report.none.run == Run(3, 18)


def test_a_run_has_no_break_in_itself() -> None:
    """Two claims on one run, and the same assembly again at the end."""
    late = spans("late", "6..14 book", "13..14 tale")
    early = spans("early", "1..5 book", "1..12 tale", "15..20 book")
    made = register(*SOURCES, early, late)
    found = breaks_at(Fits(made), "cover", made.series["xa"], Rates())
    assert [(b.earlier.id, b.later.id) for b in found] == [("early", "late"), ("late", "early")]


WORDS = st.sampled_from(["book", "letter", "tale", ""])
ENDS = st.lists(st.tuples(st.integers(2, 18), WORDS), min_size=1, max_size=3)


@given(ENDS, ENDS, st.data())
def test_the_order_of_claims_and_files_never_matters(
    ends: list[tuple[int, str]], starts: list[tuple[int, str]], data: st.DataObject
) -> None:
    early = [f"1..{end} {who}" for end, who in ends]
    late = [f"{start}..20 {who}" for start, who in starts]
    first = made(early, late)
    again = made(data.draw(st.permutations(early)), data.draw(st.permutations(late)), turned=True)
    assert first == again


def made(early: list[str], late: list[str], *, turned: bool = False) -> list[object]:
    records = [spans("early", *early), spans("late", *late)]
    built = register(*SOURCES, *(reversed(records) if turned else records))
    found = breaks_at(Fits(built), "cover", built.series["xa"], Rates())
    return [(b.earlier.id, told(b), b.report) for b in found]
