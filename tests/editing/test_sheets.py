"""From rows to drafts: what is taken, what is left over, and that nothing of a cell is guessed."""

from __future__ import annotations

from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.editing.sheets import Alike, Filled, Names, Why, alike, filled, standing_of
from spanbook.editing.sheets.begun import map_text
from spanbook.editing.sheets.citing import rows_text
from spanbook.editing.sheets.columns import laid
from spanbook.editing.sheets.drafts import text_of
from spanbook.editing.sheets.guess import guesses, headings_row, sections
from spanbook.editing.sheets.standing import State, mark_of, marked, untouched
from spanbook.editing.sheets.values import tidy
from spanbook.reading import read_bytes
from spanbook.reading.problems import Problems
from spanbook.reading.records import PartRecord
from spanbook.reading.sheets import Cell, CellSort, Sheet, read_map
from spanbook.reading.write import flow
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.command import LID

PARTS = """\
kind: part
id: [No.]
columns:
- {column: No., field: number}
- {column: Name, field: name}
- {column: Supplied, field: supplied}
"""
LIDS = """\
kind: assembly
source: {id: book}
columns:
- {column: Lid, field: title, above: true}
- {column: No., field: parts.number}
- {column: Name, field: parts.name}
- {column: Qty, field: parts.quantity}
fixed: {position: body/cover, serials.1.series: xa, serials.1.first: unknown, serials.1.last: unknown}
"""
SEEN = """\
kind: teardown
columns:
- {column: Serial, field: serial}
- {column: Day, field: date}
- {column: Who, field: seen-by}
- {column: State, field: condition}
- {column: Cover, field: found.1.assembly, words: {flat: lid}}
- {column: Drain, field: found.2.note}
fixed: {found.1.position: body/cover, found.2.position: body/drain}
"""


@cache
def world() -> Register:
    with TemporaryDirectory() as folder:
        return worlds.check(Path(folder), LID).register


@pytest.fixture
def register() -> Register:
    return world()


def sheet(*rows: list[Any]) -> Sheet:
    return Sheet(
        "list.xlsx",
        "Old",
        ("Old",),
        {
            n: {c: cell(value) for c, value in enumerate(row, 1) if value is not None}
            for n, row in enumerate(rows, 1)
        },
    )


def cell(value: object) -> Cell:
    if isinstance(value, Cell):
        return value
    return (
        Cell(CellSort.NUMBER, str(value), exact=False)
        if isinstance(value, int)
        else Cell(CellSort.TEXT, str(value))
    )


def run(register: Register, text: str, *rows: list[Any]) -> Filled:
    map_, read = read_map(text.encode(), "a.yml"), sheet(*rows)
    return filled(read, map_, laid(read, map_), Names(register))


def values(found: Filled) -> dict[str, Any]:
    return {draft.id: dict(draft.values) for draft in found.drafts}


def left(found: Filled) -> list[tuple[str, int, int, str, str]]:
    return [(str(one.why), one.row, one.column, one.read, one.about) for one in found.left]


HEAD = ["No.", "Name", "Supplied"]
FROM = "list.xlsx, sheet Old, row {}"


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


def test_rows_are_named_in_runs() -> None:
    assert rows_text([3]) == "row 3"
    assert rows_text([3, 4, 5, 9, 9]) == "rows 3 to 5, 9"
    assert rows_text(list(range(1, 40, 2))) == "rows 1, 3, 5, 7, 9, 11, 13, 15 …"


def test_a_draft_is_known_again_wherever_it_was_put_and_whatever_it_is_called(tmp_path: Path) -> None:
    base = worlds.check(tmp_path / "a").register
    (draft, other) = run(base, PARTS, HEAD, ["K-1", "Knob"], ["K-2", "Bolt"]).drafts
    moved = marked(draft, "list.xlsx").replace('id: "k-1"', "id: the-knob")
    named = "kind: part\nid: bolt\nformerly: [k-2]\nnumber: K-2\nname: Bolt\n"
    world = f"# file: content/parts/x/the-knob.yml\n{moved}# file: content/parts/bolt.yml\n{named}"
    there = worlds.check(tmp_path / "b", world).register
    found = standing_of(there, "part", (draft, other))
    assert [(one.state, one.path) for one in found.values()] == [
        (State.TAKEN, "content/parts/x/the-knob.yml"),
        (State.THERE, "content/parts/bolt.yml"),
    ]
    (changed,) = run(base, PARTS, HEAD, ["K-1", "Handle"]).drafts
    assert standing_of(there, "part", [changed])["k-1"].state is State.OTHERWISE
    # Rows move when others are put in between, and say the same.
    (later,) = run(base, PARTS, HEAD, [None], ["K-1", "Knob"]).drafts
    assert standing_of(there, "part", [later])["k-1"].state is State.TAKEN
    assert standing_of(base, "part", [draft])["k-1"].state is State.NEW


def test_a_draft_that_somebody_changed_is_seen(register: Register) -> None:
    (draft,) = run(register, PARTS + "source: {id: book}\n", HEAD, ["K-1", "Knob"]).drafts
    assert marked(draft, "list.xlsx").startswith("# Drafted from list.xlsx, row 2 as k-1 (")
    text = marked(draft, "list.xlsx", "https://example.org/part.json")
    assert mark_of(text.encode()) == ("k-1", mark_of(marked(draft, "list.xlsx").encode())[1])  # type: ignore[index]
    assert untouched(text.encode())
    for change in (
        text.replace("Knob", "Handle"),
        text + "# looked at\n",
        text.replace('name: "Knob"', 'name: "Knob"  # brass'),
        text.replace("part.json\n", "part.json # looked at\n"),
        text.replace(")\n", ") looked at\n", 1),
        "# looked at\n" + text,
        text_of(draft),
    ):
        assert not untouched(change.encode()), change


@given(st.lists(st.tuples(st.sampled_from("ABC"), st.integers(1, 9), st.sampled_from("xyz")), max_size=12))
def test_every_line_of_a_list_is_in_one_draft_or_told(lines: list[tuple[str, int, str]]) -> None:
    rows: list[list[Any]] = [[lid, f"K-{number}", name, number] for lid, number, name in lines]
    found = run(world(), LIDS, ["Lid", "No.", "Name", "Qty"], *rows)
    drafted = sum(len(one["parts"]) for one in values(found).values())
    assert drafted + sum(one.why is Why.TWICE for one in found.left) == len(lines)
    assert drafted == len({*lines})


def pairs(found: list[Alike]) -> list[tuple[str, str, str]]:
    return [(one.draft, one.other, one.path) for one in found]


anything = st.text(st.characters(codec="utf-8"), max_size=60)


@given(st.lists(st.tuples(anything, anything), min_size=1, max_size=6))
def test_text_is_text_or_told(rows: list[tuple[str, str]]) -> None:
    """Whatever stands in a cell comes back out of the draft's file as those characters, or is left over."""
    found = run(world(), PARTS, HEAD, *([number, name] for number, name in rows))
    told = {one.row for one in found.left}
    by_row = {draft.rows[0]: draft for draft in found.drafts}
    for row, (number, name) in enumerate(rows, 2):
        if row in by_row and by_row[row].rows == (row,):
            draft = by_row[row]
            read = read_bytes(marked(draft, "a.csv").encode(), "a.yml", "part", draft.id)
            assert isinstance(read, PartRecord)
            assert (read.number, read.title) == (tidy(number), tidy(name))
        elif tidy(number) or tidy(name):
            assert row in told or any(row in draft.rows for draft in found.drafts)


def test_likely_duplicates_are_told(tmp_path: Path) -> None:
    part = "# file: content/parts/knob.yml\nkind: part\nid: knob\nnumber: K-10\nname: Knob\n"
    there = worlds.check(tmp_path, LID, part).register
    drafts = run(
        there, PARTS, HEAD, ["K-1O", "Knob"], ["K-2", "Bolt"], ["K 2.", "Bolts"], ["L-2", "Nut"]
    ).drafts
    # K 2. and K-2 have one id; K-1O is read for K-10.
    assert pairs(list(alike(there, "part", drafts))) == [("k-1o", "knob", "content/parts/knob.yml")]
    lids = "- {column: Lid, field: title}\n"
    rows: list[list[Any]] = [["The lid, plain"], ["Plain: the LID"], ["Lid 2"], ["Lid 1"], ["Lidd"]]
    text = LIDS.replace("- {column: Lid, field: title, above: true}\n", lids)
    text = text[: text.index("- {column: No.")] + text[text.index("fixed:") :]
    drafts = run(there, text, ["Lid"], *rows).drafts
    assert pairs(list(alike(there, "assembly", drafts))) == [("plain-the-lid", "the-lid-plain", "")]


def test_lines_limited_to_machines_ask_for_their_series() -> None:
    head = ["Part No.", "Description", "From engine", "To engine no.", "Fig."]
    read = sheet(head, ["K-1", "Knob", "1", "40", "3"])
    found = guesses(read, "assembly", 1)
    assert [one.field for one in found] == [
        "parts.number",
        "parts.name",
        "parts.serials.first",
        "parts.serials.last",
        "parts.evidence.at",
    ]
    text = "\n".join(map_text(read, "assembly", 1, found))
    assert [line.split(":")[0].strip() for line in text.partition("fixed:\n")[2].splitlines()] == [
        "title",
        "position",
        "serials.1.series",
        "serials.1.first",
        "serials.1.last",
        "parts.serials.series",
    ]


def test_a_map_is_guessed_by_what_stands_in_the_cells_and_by_places(register: Register) -> None:
    read = sheet(
        ["Engine", "Owner", "Looked at", "Original?", "Cover", "Drain", "Paint"],
        ["XA 7", "merrin", "2024", "Likely original", "Lid", None, "grey"],
        ["XA 8", "osk", "2024", "altered", None, "Lid", "green"],
    )
    found = guesses(read, "teardown", 1, Names(register))
    assert [(one.field, one.place) for one in found] == [
        ("serial", ""),
        ("seen-by", ""),
        ("date", ""),
        ("condition", ""),
        ("found.1.assembly", "body/cover"),
        ("found.2.assembly", "body/drain"),
        ("", ""),
    ]
    map_ = read_map("\n".join(map_text(read, "teardown", 1, found)).encode(), "a.yml")
    made = filled(read, map_, laid(read, map_), Names(register))
    assert [draft.id for draft in made.drafts] == ["xa-7-merrin", "xa-8-osk"]


def test_a_map_is_guessed_by_the_words_of_the_trade(register: Register) -> None:
    read = sheet(
        ["Pell's list"], ["Part no.", "Description", "Qty", "Remarks", "Shelf"],
        ["FLAT LID"], ["0012", "Knob", 1, "brass", "A1"], ["ROUND LID"], ["K-1", "Pin", 2, None, "A2"],
        ["K-2", "Bolt", 2],
    )  # fmt: skip
    headings = headings_row(read)
    found = guesses(read, "assembly", headings)
    assert (headings, sections(read, headings)) == (2, True)
    assert [(one.heading, one.field) for one in found] == [
        ("Part no.", "parts.number"),
        ("Description", "parts.name"),
        ("Qty", "parts.quantity"),
        ("Remarks", "parts.note"),
        ("Shelf", ""),
    ]
    text = "\n".join(map_text(read, "assembly", headings, found))
    with pytest.raises(Problems) as wrong:
        read_map(text.encode(), "a.yml")
    # What nobody can guess is left open, and has to be filled in.
    assert str(wrong.value).count("; write it like ") == 4
    for open_, said in (("position", "body/cover"), ("series", "xa"), ("first", "1"), ("last", "open")):
        text = text.replace(f'{open_}: ""', f"{open_}: {flow(said)}")
    map_ = read_map(text.encode(), "a.yml")
    made = filled(read, map_, laid(read, map_), Names(register))
    assert [draft.id for draft in made.drafts] == ["flat-lid", "round-lid"]
