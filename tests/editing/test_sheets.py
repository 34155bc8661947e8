"""From rows to drafts: what is taken, what is left over, and that nothing of a cell is guessed."""

from __future__ import annotations

import pytest

from spanbook.editing.sheets import Why
from spanbook.reading.sheets import Cell, CellSort
from spanbook.register.model import Register
from tests.support.drafted import FROM, HEAD, LIDS, PARTS, SEEN, left, run, values


def test_a_row_becomes_a_record_that_says_where_it_is_from(register: Register) -> None:
    text = PARTS + "source: {id: book}\n"
    found = run(register, text, HEAD, ["K-1", "Knob", "Yes"], ["0012", "Gasket", None])
    evidence = [[{"source": "book", "at": FROM.format(row)}] for row in (2, 3)]
    assert values(found) == {
        "k-1": {"number": "K-1", "name": "Knob", "supplied": "yes", "evidence": evidence[0]},
        "0012": {"number": "0012", "name": "Gasket", "evidence": evidence[1]},
    }
    assert (found.left, found.rows) == ((), 2)


def test_without_a_source_the_row_stands_in_the_notes(register: Register) -> None:
    found = run(register, PARTS, HEAD, ["K-1", "Knob", None])
    assert values(found)["k-1"]["notes"] == FROM.format("2.")


def test_a_number_in_a_column_of_text_is_told_and_never_taken(register: Register) -> None:
    found = run(register, PARTS, HEAD, [12, "Knob", None])
    assert found.drafts == ()
    assert ("number", 2, 1, "12", "") in left(found)
    shown = run(register, PARTS.replace("field: number", "field: number, numbers: shown"), HEAD, [12, "Knob"])
    assert values(shown)["12"]["number"] == "12"


@pytest.mark.parametrize(
    ("odd", "why"),
    [
        (Cell(CellSort.DATE, "2024-05-11"), Why.DATE),
        (Cell(CellSort.TRUTH, "yes", exact=False), Why.TRUTH),
        (Cell(CellSort.FORMULA, "=A1", exact=False), Why.FORMULA),
        (Cell(CellSort.ERROR, "#N/A", exact=False), Why.ERROR),
        (Cell(CellSort.TEXT, "x" * 30_001), Why.LONG),
        (Cell(CellSort.TEXT, "a\u202eb"), Why.HIDDEN),
        (Cell(CellSort.TEXT, "x" * 41), Why.FORM),
    ],
)
def test_what_a_program_made_of_a_number_is_told(odd: Cell, why: Why, register: Register) -> None:
    found = run(register, PARTS, HEAD, [odd, "Knob"])
    assert found.drafts == ()
    assert (why, 2, 1) in [(one.why, one.row, one.column) for one in found.left]


def test_a_quantity_that_cannot_be_read_takes_its_line_along(register: Register) -> None:
    """A line without a quantity says that it is one."""
    found = run(
        register,
        LIDS,
        ["Lid", "No.", "Name", "Qty"],
        ["Flat", "K-1", "Knob", "two"],
        [None, "K-2", "Bolt", 4],
        [None, "K-3", "Nut", "1.5"],
        [None, "K-4", "Pin"],
    )
    lines = [(line["number"], line.get("quantity")) for line in values(found)["flat"]["parts"]]
    assert lines == [("K-2", 4), ("K-4", None)]
    assert [(why, row) for why, row, *_ in left(found)] == [
        ("part", 2),
        ("form", 2),
        ("part", 4),
        ("form", 4),
    ]


def test_rows_of_one_id_are_one_record_and_each_line_says_its_row(register: Register) -> None:
    found = run(
        register,
        LIDS,
        ["Lid", "No.", "Name", "Qty"],
        ["Flat lid", "K-1", "Knob", 1],
        [None, "K-2", "Bolt", 4],
        ["Round lid", "K-1", "Knob", 1],
        ["Flat lid", "K-2", "Bolt", 4],
    )
    flat = values(found)["flat-lid"]
    assert [(line["number"], line["evidence"][0]["at"]) for line in flat["parts"]] == [
        ("K-1", FROM.format(2)),
        ("K-2", FROM.format(3)),
    ]
    assert flat["serials"][0]["evidence"][0]["at"] == FROM.format(2)
    assert [draft.rows for draft in found.drafts] == [(2, 3, 5), (4,)]
    assert left(found) == [("twice", 5, 2, "K-2", "3")]


def test_a_row_that_says_otherwise_is_told_with_the_earlier_one(register: Register) -> None:
    found = run(register, PARTS, HEAD, ["K-1", "Knob"], ["K 1", "Handle"])
    assert values(found)["k-1"]["number"] == "K-1"
    assert left(found) == [("otherwise", 3, 1, "K 1", "K-1 (2)"), ("otherwise", 3, 2, "Handle", "Knob (2)")]


def test_one_row_may_hold_several_places_and_an_empty_cell_says_nothing(register: Register) -> None:
    head = ["Serial", "Day", "Who", "State", "Cover", "Drain"]
    day = Cell(CellSort.DATE, "2024-05-11")
    found = run(
        register,
        SEEN,
        head,
        ["XA 7", day, "merrin", "Likely original", "Flat", None],
        ["XA 8", "2024", "osk", "altered", "Lid", "A cock"],
        ["XA 9", "2024", "osk", "altered", "Lit", None],
    )
    assert values(found) == {
        "xa-7-merrin": {
            "date": "2024-05-11",
            "seen-by": "merrin",
            "serial": "XA 7",
            "condition": "likely-original",
            "found": [{"position": "body/cover", "assembly": "lid"}],
            "notes": FROM.format("2."),
        },
        "xa-8-osk": {
            "date": "2024",
            "seen-by": "osk",
            "serial": "XA 8",
            "condition": "altered",
            "found": [
                {"position": "body/cover", "assembly": "lid"},
                {"position": "body/drain", "note": "A cock"},
            ],
            "notes": FROM.format("3."),
        },
    }
    assert left(found) == [("record", 4, 0, "xa-9-osk", "Found"), ("unknown", 4, 5, "Lit", "lid")]
