"""What is read on machines, beside what lines of a parts list are limited to, worked out by hand."""

from __future__ import annotations

from spanbook.answers.applicability import Fits
from spanbook.answers.standing import Standing, standings
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.register.statements import Limit
from spanbook.wording.pieces import plain
from spanbook.wording.standings import reason_words
from tests.support.registers import record, register
from tests.support.rows import each_row

BOOK = record("kind: source\nid: book\ntitle: B\nclass: parts-book\n", "source", "book")
LETTER = record("kind: source\nid: letter\ntitle: L\nclass: service-letter\n", "source", "letter")
HEAD = "kind: assembly\nid: pump\ntitle: Pump\nposition: cover\nserials: [{series: xa, first: 1, last: 20}]\n"
# The lid changed somewhere from XA 11 to XA 13.
LIST = (
    HEAD
    + """\
parts:
- number: P-1
  name: Lid
  serials: [{series: xa, first: 1, last: [10, 12], evidence: [{source: book}]}]
- number: P-2
  name: Lid
  or: [{number: S 2, by: castle-joint}]
  serials: [{series: xa, first: [11, 13], last: 20, evidence: [{source: book}]}]
- {number: P-3, name: Glass}
"""
)
PUMP = record(LIST, "assembly", "pump")

LATER = "explained by a later change"


def read(serial: str, *numbers: str, condition: str = "untouched") -> Record:
    named = ", ".join(f"{{number: {number}}}" for number in numbers)
    text = (
        f'kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: "{serial}"\nseries: xa\n'
        f"condition: {condition}\nfound: [{{position: cover, assembly: pump, parts: [{named}]}}]\n"
    )
    return record(text, "teardown", "t")


def judged(made: Register) -> dict[str, tuple[Standing, list[str]]]:
    """The standing of every limit and its reasons, by its anchor."""
    return {
        statement.anchor: (judgement.standing, [plain(reason_words(one)) for one in judgement.reasons])
        for statement, judgement in standings(Fits(made)).items()
        if isinstance(statement.subject, Limit)
    }


@each_row(
    ("teardown", "early", "late"),
    [
        (read("XA 3", "P-1"), Standing.CONFIRMED, Standing.PRINTED),
        (read("XA 11", "P-1"), Standing.CONFIRMED, Standing.PRINTED),
        (read("XA 15", "P-1"), Standing.DISPUTED, Standing.DISPUTED),
        (read("XA 12", "P-2"), Standing.PRINTED, Standing.CONFIRMED),
        (read("XA 3", "P-2"), Standing.DISPUTED, Standing.DISPUTED),
        (read("XA 3", "P-3"), Standing.PRINTED, Standing.PRINTED),
        (read("XA 15", "P-1", condition="altered"), Standing.PRINTED, Standing.PRINTED),
        # Worn: 11, 12, 13 … do not agree on either; 1 to 7 do.
        (read("XA 1?", "P-1"), Standing.PRINTED, Standing.PRINTED),
        (read("XA ?", "P-1"), Standing.CONFIRMED, Standing.PRINTED),
    ],
)
def test_a_number_that_was_read_speaks_for_a_line_and_against_it(
    teardown: Record, early: Standing, late: Standing
) -> None:
    found = judged(register(BOOK, PUMP, teardown))
    assert (found["part-p-1-xa"][0], found["part-p-2-xa"][0]) == (early, late)


def test_another_number_of_the_line_is_as_good() -> None:
    text = LIST.replace("S 2, by: castle-joint", "P-9")
    made = register(BOOK, record(text, "assembly", "pump"), read("XA 15", "P-9"))
    assert judged(made)["part-p-2-xa"][0] is Standing.CONFIRMED


def test_what_replaced_it_since_is_no_contradiction() -> None:
    act = record(
        "kind: supersession\nid: a\nold: [{number: P-1}]\nnew: [{number: P-2}]\n", "supersession", "a"
    )
    found = judged(register(BOOK, PUMP, act, read("XA 3", "P-2")))
    assert found["part-p-1-xa"] == (
        Standing.PRINTED,
        ["printed: B", f"{LATER}: XA 3, seen 2024, read P-2 in its place, which replaced it"],
    )


def test_claims_that_cannot_both_be_dispute_one_another() -> None:
    beside = "{series: xa, first: 1, last: 15, anchor: later, evidence: [{source: letter}]}"
    text = LIST.replace("evidence: [{source: book}]}]", f"evidence: [{{source: book}}]}}, {beside}]", 1)
    found = judged(register(BOOK, LETTER, record(text, "assembly", "pump")))
    assert {found[anchor][0] for anchor in ("part-p-1-xa", "later")} == {Standing.DISPUTED}


def test_a_limit_without_evidence_rests_on_its_lines() -> None:
    text = LIST.replace(
        "  serials: [{series: xa, first: 1, last: [10, 12], evidence: [{source: book}]}]\n",
        "  evidence: [{source: letter}]\n  serials: [{series: xa, first: 1, last: [10, 12]}]\n",
    )
    found = judged(register(BOOK, LETTER, record(text, "assembly", "pump")))
    assert found["part-p-1-xa"] == (Standing.PRINTED, ["printed: L"])


def test_a_stranger_stands_in_the_place_of_the_line_that_the_machine_has() -> None:
    teardown = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
        "found: [{position: cover, assembly: pump, parts: [{number: Q-1, name: Lid}]}]\n",
        "teardown",
        "t",
    )
    made = register(BOOK, PUMP, teardown)
    said = {statement.anchor: one.standing for statement, one in standings(Fits(made)).items()}
    assert (said["part-p-1"], said["part-p-2"]) == (Standing.DISPUTED, Standing.UNSUPPORTED)


def test_a_number_read_in_another_series_is_no_matter_of_a_span() -> None:
    both = "serials: [{series: xa, first: 1, last: 20}, {series: xb, first: 15, last: 40}]"
    text = LIST.replace("serials: [{series: xa, first: 1, last: 20}]", both)
    look = record(
        "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 30\nseries: xb\ncondition: untouched\n"
        "found: [{position: cover, assembly: pump, parts: [{number: P-1}]}]\n",
        "teardown",
        "t",
    )
    found = judged(register(BOOK, record(text, "assembly", "pump"), look))
    assert found["part-p-1-xa"] == (Standing.PRINTED, ["printed: B"])
