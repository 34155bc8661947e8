"""Lists inside a record: entries from cells and columns, what a map fixes, and what is left over of them."""

from __future__ import annotations

from typing import Any

import pytest

from spanbook.editing.sheets import Filled, Why
from spanbook.reading.problems import Problems
from spanbook.register.model import Register
from tests.support.drafted import FROM, HEAD, LIDS, PARTS, left, run, values


def lines_of(found: Filled) -> list[Any]:
    (only,) = values(found).values()
    return [{k: v for k, v in line.items() if k != "evidence"} for line in only["parts"]]


ONE = """\
kind: assembly
columns:
- {column: Lid, field: title, above: true}
- {column: Signs, field: tell, between: ;}
- {column: No., field: parts.number, between: +}
- {column: Name, field: parts.name}
- {column: Note, field: parts.note}
- {column: Or, field: parts.or.number}
- {column: Its name, field: parts.or.name}
- {column: Option, field: serials.1.option}
fixed:
  {position: body/cover, serials.1.series: xa, serials.1.first: unknown, serials.1.last: unknown, parts.name:
  Part}
"""
WIDE = ["Lid", "Signs", "No.", "Name", "Note", "Or", "Its name", "Option"]


def test_what_is_fixed_stands_where_a_column_of_the_entry_is_empty(
    register: Register,
) -> None:
    found = run(
        register,
        ONE,
        WIDE,
        ["Flat", None, "K-1", None],
        [None, None, "K-2", "Bolt"],
        [None, "A knob"],
    )
    assert lines_of(found) == [{"number": "K-1", "name": "Part"}, {"number": "K-2", "name": "Bolt"}]
    assert (left(found), values(found)["flat"]["tell"]) == ([], ["A knob"])


def test_every_piece_of_a_cell_has_what_is_fixed(register: Register) -> None:
    found = run(register, ONE, WIDE, ["Flat", None, "K-1 + K-2 + K-3"])
    assert lines_of(found) == [{"number": f"K-{n}", "name": "Part"} for n in (1, 2, 3)]


def test_a_number_twice_in_one_cell_is_told(register: Register) -> None:
    found = run(register, ONE, WIDE, ["Flat", None, "K-1 + K-1"])
    assert (len(lines_of(found)), left(found)) == (1, [("twice", 2, 3, "K-1", "2")])


def test_a_text_of_a_list_stands_there_once(register: Register) -> None:
    rows: list[list[Any]] = [["Flat", "a; b; a"], ["Flat", "b; c"]]
    assert values(run(register, ONE, WIDE, *rows))["flat"]["tell"] == ["a", "b", "c"]


def test_a_no_is_left_out_and_a_yes_stands(register: Register) -> None:
    found = run(register, ONE, WIDE, ["Flat", *[None] * 6, "no"], ["Round", *[None] * 6, "yes"])
    spans = {id_: one["serials"][0] for id_, one in values(found).items()}
    assert ("option" in spans["flat"], spans["round"]["option"]) == (False, True)


def test_a_remark_that_is_not_taken_leaves_its_line_there(register: Register) -> None:
    found = run(register, ONE, WIDE, ["Flat", None, "K-1", "Knob", "x" * 301])
    assert lines_of(found) == [{"number": "K-1", "name": "Knob"}]
    assert [(why, column) for why, _, column, *_ in left(found)] == [("form", 5)]


def test_an_entry_inside_an_entry_that_lacks_something_is_told_alone(register: Register) -> None:
    found = run(
        register,
        ONE,
        WIDE,
        ["Flat", None, "K-1", "Knob", None, "J-1", "Ring"],
        [None, None, "K-2", "Bolt", None, None, "Ring"],
    )
    assert lines_of(found) == [
        {"number": "K-1", "name": "Knob", "or": [{"number": "J-1", "name": "Ring"}]},
        {"number": "K-2", "name": "Bolt"},
    ]
    assert left(found) == [("part", 3, 7, "Ring", "Part number")]


def test_what_the_map_fixes_wrongly_is_told_at_every_row(register: Register) -> None:
    text = LIDS.replace("serials.1.first: unknown, ", "").replace("body/cover", "body/cove")
    found = run(register, text, ["Lid", "No.", "Name", "Qty"], ["Flat", "K-1", "Knob", 1])
    assert left(found) == [
        ("unknown", 2, 0, "body/cove", "body/cover"),
        ("part", 2, 0, "xa", "First number"),
        ("record", 2, 0, "flat", "Position, Serial numbers"),
    ]
    section = "section: title\n" + LIDS.replace("- {column: Lid, field: title, above: true}\n", "")
    found = run(register, section, ["No.", "Name", "Qty"], ["x" * 301], ["K-1", "Knob", 1])
    assert [(why, row, column) for why, row, column, *_ in left(found)] == [("form", 3, 0), ("no-id", 3, 0)]
    alone = run(register, LIDS, ["Lid", "No.", "Name", "Qty"], ["Flat"], [None, "K-1", "Knob"])
    assert [*values(alone)] == ["flat"]


def test_several_numbers_in_a_cell_are_several_entries(register: Register) -> None:
    text = "kind: supersession\nid: [Old, New]\ncolumns:\n"
    text += "- {column: Old, field: old.number, between: +}\n- {column: New, field: new.number, between: +}\n"
    text += '- {column: Qty, field: new.quantity, between: "+"}\n'
    found = run(register, text, ["Old", "New", "Qty"], ["K-1", "K-2 + K-3", "2+1"])
    assert values(found)["k-1-k-2-k-3"]["new"] == [
        {"number": "K-2", "quantity": 2},
        {"number": "K-3", "quantity": 1},
    ]


def test_headings_between_the_rows_go_into_a_field(register: Register) -> None:
    text = LIDS.replace("- {column: Lid, field: title, above: true}\n", "") + "section: title\n"
    found = run(
        register, text, ["No.", "Name", "Qty"], ["FLAT LID"], ["K-1", "Knob"], ["ROUND"], ["K-2", "Bolt"]
    )
    assert {id_: one["title"] for id_, one in values(found).items()} == {
        "flat-lid": "FLAT LID",
        "round": "ROUND",
    }
    assert left(found) == []


def test_columns_that_nobody_named_are_told_unless_they_are_left_on_purpose(register: Register) -> None:
    rows: list[list[Any]] = [[*HEAD, "Shelf"], ["K-1", "Knob", None, "A1"], ["K-2", "Bolt", None, "A2"]]
    assert left(run(register, PARTS, *rows)) == [("column", 0, 4, "2", "")]
    assert left(run(register, PARTS + "left: [Shelf]\n", *rows)) == []


def test_drafts_that_somebody_does_not_want_are_not_made_again(register: Register) -> None:
    found = run(register, PARTS + "without: [k-1]\n", HEAD, ["K-1", "Knob"], ["K-2", "Bolt"])
    assert [*values(found)] == ["k-2"]


@pytest.mark.parametrize(
    ("text", "head", "told"),
    [
        (PARTS, ["No.", "Nam", "Supplied"], "there is no column Name; did you mean Nam?"),
        (PARTS, [], "there is no column No.; row 1 has: none"),
        (
            PARTS,
            ["No.", "Name", "name", "Supplied"],
            "several columns are called Name; name them by their letters, B and C",
        ),
        (
            PARTS.replace("field: name", "field: number"),
            HEAD,
            "two columns go into number; keep one of them, or number entries of a list",
        ),
        (PARTS + "left: [Self]\n", HEAD, "there is no column Self"),
    ],
)
def test_a_column_that_is_not_there_is_told(
    text: str, head: list[Any], told: str, register: Register
) -> None:
    with pytest.raises(Problems) as wrong:
        run(register, text, head, ["K-1"])
    assert told in str(wrong.value)


def test_one_column_may_go_into_several_fields(register: Register) -> None:
    text = "kind: assembly\ncolumns:\n- {column: Lid, field: title}\n"
    text += '- {column: Engines, field: serials.first, before: "-"}\n'
    text += '- {column: Engines, field: serials.last, after: "-"}\n'
    text += "fixed: {position: body/cover, serials.series: xa}\n"
    found = run(register, text, ["Lid", "Engines"], ["Flat", "1-40"], ["Round", "41"])
    assert values(found)["flat"]["serials"] == [{"series": "xa", "first": 1, "last": 40}]
    assert [(why, row, about) for why, row, _, _, about in left(found)] == [
        ("record", 3, "Serial numbers"),
        ("cut", 3, "-"),
        ("cut", 3, "-"),
    ]


def test_a_reference_may_be_a_title(register: Register) -> None:
    text = LIDS.replace("position: body/cover", "position: cover")
    assert values(run(register, text, ["Lid", "No.", "Name", "Qty"], ["Flat", "K-1", "Knob"]))["flat"][
        "position"
    ] == ("body/cover")


def test_a_page_in_a_column_of_its_own_is_one_of_the_sheets_source(register: Register) -> None:
    text = PARTS + "source: {id: book}\n"
    text = text.replace("- {column: Supplied, field: supplied}", "- {column: Page, field: evidence.at}")
    found = run(register, text, ["No.", "Name", "Page"], ["K-1", "Knob", "p. 3"])
    assert values(found)["k-1"]["evidence"] == [
        {"source": "book", "at": "p. 3"},
        {"source": "book", "at": FROM.format(2)},
    ]
    text = text.replace("evidence.at", "evidence.source")
    named = run(register, text, ["No.", "Name", "Page"], ["K-1", "Knob", "The book"])
    assert values(named)["k-1"]["evidence"][0] == {"source": "book"}


def test_the_machines_that_a_line_is_limited_to_rest_on_its_row(register: Register) -> None:
    fixed = "fixed: {parts.serials.series: xa, parts.serials.last: open, "
    text = LIDS.replace("fixed: {", "- {column: From, field: parts.serials.first}\n" + fixed)
    head: list[Any] = ["Lid", "No.", "Name", "Qty", "From"]
    found = run(register, text, head, ["Flat", "K-1", "Knob", 1, "7"], ["Flat", "K-2", "Bolt"])
    limited, other = values(found)["flat"]["parts"]
    rests = [{"source": "book", "at": FROM.format(2)}]
    assert limited["serials"] == [{"series": "xa", "first": 7, "last": "open", "evidence": rests}]
    assert (limited["evidence"], "serials" in other) == (rests, False)


def test_what_can_be_no_record_is_told(register: Register) -> None:
    text = PARTS.replace("id: [No.]\n", "").replace("field: supplied", "field: id")
    found = run(register, text, HEAD, ["K-1", "Knob", "k-1"], ["K-2", None, None])
    assert ([*values(found)], left(found)) == (["k-1"], [("no-id", 3, 0, "", "")])
    text = PARTS.replace("field: supplied", "field: also.note") + "fixed: {also.number: K-9}\n"
    rows = [["K-1", "Knob", f"{n} {'x' * 290}"] for n in range(300)]
    large = run(register, text, HEAD, *rows)
    assert large.drafts == ()
    assert [(one.why, one.row) for one in large.left] == [(Why.UNREADABLE, row) for row in range(2, 302)]
