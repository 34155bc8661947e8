"""`spanbook import`: three sheets of different shape, read, laid as drafts, and read again without
doubling."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.faces import sheets as faces
from spanbook.reading.schemas import folder as schema_folder
from tests.support import sheets
from tests.support.command import project, run
from tests.support.trees import tree

# A parts list under headings between its rows, as works and collectors type them.
LIST: list[list[Any]] = [
    ["Lids, from an old list"],
    ["Part no.", "Description", "Qty", "Remarks", "Shelf"],
    ["FLAT LID"],
    [12, "Knob", 1, "brass", "A1"],
    [13, "Gasket", 2, None, "A2"],
    ["ROUND LID"],
    ["K-3", "Bolt", 4, None, None],
]
LIST_MAP = """\
kind: assembly
headings: 2
source: {id: old-list, title: An old list, class: recollection}
columns:
- {column: Part no., field: parts.number}
- {column: Description, field: parts.name}
- {column: Qty, field: parts.quantity}
- {column: Remarks, field: parts.note}
section: title
left: [Shelf]
fixed: {position: Cover, serials.1.series: xa, serials.1.first: unknown, serials.1.last: unknown}
"""
# A register of machines, a column a place.
LOOKS: list[list[Any]] = [
    ["Engine", "Looked at", "By", "State", "Cover", "Drain"],
    ["XA 7", "2024-05-11", "merrin", "untouched", "flat", None],
    ["XA 8", "2019/2021", "osk", "altered", None, "A cock"],
]
LOOKS_MAP = """\
kind: teardown
columns:
- {column: Engine, field: serial}
- {column: Looked at, field: date}
- {column: By, field: seen-by}
- {column: State, field: condition}
- {column: Cover, field: found.1.assembly, words: {flat: lid}}
- {column: Drain, field: found.2.note}
fixed: {found.1.position: body/cover, found.2.position: body/drain}
"""
# What replaces what, a row an act, several numbers in a cell.
ACTS: list[list[Any]] = [["Old", "New", "Year"], ["0012", "K-3+K-4", 1936], ["K-9", "K-10", "about 1936"]]
ACTS_MAP = """\
kind: supersession
source: {id: book}
id: [Old, New]
columns:
- {column: Old, field: old.number}
- {column: New, field: new.number, between: +}
- {column: Year, field: year}
"""


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return project(tmp_path / "p")


def laid(folder: Path, name: str, text: str) -> Path:
    file = folder.parent / f"{name}.map.yml"
    file.write_text(text)
    return file


def imported(folder: Path, sheet: Path, map_: Path, *more: str) -> str:
    done = run("import", sheet, "--map", map_, "--folder", folder, *more)
    assert done.exit_code == 0, done.output
    return done.output


def take(folder: Path, name: str) -> None:
    """What a maintainer does with drafts that are right."""
    drafts = folder / "drafts" / name / "content"
    for file in drafts.rglob("*.yml"):
        there = folder / "content" / file.relative_to(drafts)
        there.parent.mkdir(parents=True, exist_ok=True)
        there.write_bytes(file.read_bytes())


def checked(folder: Path) -> list[dict[str, Any]]:
    told = json.loads(run("check", folder, "--format", "json").output)["problems"]
    return [problem for problem in told if problem["severity"] == "error"]


@pytest.mark.slow
def test_a_parts_list_in_sections(folder: Path) -> None:
    sheet = sheets.xlsx(folder.parent / "list.xlsx", LIST, {"A4": "0000"}, name="Lids")
    map_ = laid(folder, "lids", LIST_MAP)
    before = tree(folder)
    told = imported(folder, sheet, map_, "--plan", "--show", "1")
    assert told.startswith(
        "list.xlsx, sheet Lids: 3 rows. 3 new drafts.\nLeft over (2):\n  A5 (Part no.): the number 13"
    )
    assert "\ncontent/sources/old-list.yml\n# Drafted from list.xlsx, sheet Lids as old-list (" in told
    assert tree(folder) == before
    imported(folder, sheet, map_, "--yes")
    flat = (folder / "drafts/lids/content/assemblies/flat-lid.yml").read_text()
    assert flat.partition("\n")[2] == (
        'kind: "assembly"\nid: "flat-lid"\ntitle: "FLAT LID"\nposition: "body/cover"\n'
        'serials:\n  - series: "xa"\n    first: "unknown"\n    last: "unknown"\n    evidence:\n'
        '      - source: "old-list"\n        at: "list.xlsx, sheet Lids, row 4"\n'
        'parts:\n  - number: "0012"\n    name: "Knob"\n    quantity: 1\n    note: "brass"\n    evidence:\n'
        '      - source: "old-list"\n        at: "list.xlsx, sheet Lids, row 4"\n'
    )
    left = (folder / "drafts/lids/left-over.txt").read_text().splitlines()
    assert left[0] == "Left over of list.xlsx, sheet Lids"
    assert [line.partition(":")[0] for line in left[2:]] == ["A5 (Part no.)", "B5 (Description)"]
    take(folder, "lids")
    assert checked(folder) == []


# What reads a workbook is a process of its own; tests/reading/test_sheets.py has each sort every day.
WORKBOOKS = [pytest.param(made, marks=pytest.mark.slow) for made in (sheets.xlsx, sheets.ods, sheets.xls)]


@pytest.mark.parametrize("made", [sheets.csv, *WORKBOOKS])
def test_a_register_of_machines_from_every_sort_of_file(made: Any, folder: Path) -> None:
    sheet = made(folder.parent / "looks", LOOKS)
    imported(folder, sheet, laid(folder, "looks", LOOKS_MAP), "--yes")
    seen = (folder / "drafts/looks/content/teardowns/xa-7-merrin.yml").read_text()
    assert 'found:\n  - position: "body/cover"\n    assembly: "lid"\nnotes: "looks, ' in seen
    take(folder, "looks")
    assert checked(folder) == []


def test_a_list_of_acts(folder: Path) -> None:
    sheet = sheets.csv(folder.parent / "acts.csv", ACTS, ";")
    told = imported(folder, sheet, laid(folder, "acts", ACTS_MAP), "--yes")
    assert "  C3 (Year): “about 1936”; The year in which it was done" in told
    act = (folder / "drafts/acts/content/supersessions/0012-k-3-k-4.yml").read_text()
    assert 'old:\n  - number: "0012"\nnew:\n  - number: "K-3"\n  - number: "K-4"\nyear: 1936\n' in act
    assert 'evidence:\n  - source: "book"\n    at: "acts.csv, row 2"\n' in act
    take(folder, "acts")
    assert checked(folder) == []


def test_read_again_nothing_is_there_twice(folder: Path) -> None:
    sheet = sheets.csv(folder.parent / "acts.csv", ACTS)
    map_ = laid(folder, "acts", ACTS_MAP)
    imported(folder, sheet, map_, "--yes")
    once = tree(folder)
    assert "2 drafts are as they were." in imported(folder, sheet, map_, "--yes")
    assert tree(folder) == once
    # Somebody looks one through, changes another, and the sheet grows.
    drafts = folder / "drafts/acts/content/supersessions"
    (folder / "content/supersessions").mkdir()
    (drafts / "k-9-k-10.yml").rename(folder / "content/supersessions/k-9-k-10.yml")
    mine = drafts / "0012-k-3-k-4.yml"
    mine.write_text(mine.read_text() + 'interchange: "both"\n')
    sheets.csv(sheet, [ACTS[0], ["K-20", "K-21", 1937], ACTS[1], ["K-9", "K-10", 1936]])
    told = imported(folder, sheet, map_, "--yes")
    assert "1 new draft, 1 that somebody has changed stays." in told
    assert (
        "Among the records, and the sheet says otherwise now; correct them by hand (1):\n"
        "  k-9-k-10: content/supersessions/k-9-k-10.yml\n"
    ) in told
    assert sorted(file.name for file in drafts.iterdir()) == ["0012-k-3-k-4.yml", "k-20-k-21.yml"]
    assert mine.read_text().endswith('interchange: "both"\n')
    # A row that is gone takes its draft along, unless somebody has changed that.
    sheets.csv(sheet, [ACTS[0]])
    assert "1 that somebody has changed stays, 1 draft goes." in imported(folder, sheet, map_, "--yes")
    assert [file.name for file in drafts.iterdir()] == ["0012-k-3-k-4.yml"]


def test_a_record_that_comes_from_no_sheet_is_never_touched(folder: Path) -> None:
    own = folder / "content/supersessions/k-9-k-10.yml"
    own.parent.mkdir()
    own.write_text("kind: supersession\nid: k-9-k-10\nold: [{number: K-9}]\nnew: []\n")
    sheet = sheets.csv(folder.parent / "acts.csv", ACTS)
    told = imported(folder, sheet, laid(folder, "acts", ACTS_MAP), "--yes")
    assert "Not drafted: a record that comes from no sheet has the id (1):\n  k-9-k-10: content/" in told
    assert not (folder / "drafts/acts/content/supersessions/k-9-k-10.yml").exists()


@pytest.mark.slow
def test_all_of_it_as_json(folder: Path) -> None:
    sheet = sheets.xlsx(folder.parent / "list.xlsx", LIST)
    output = imported(folder, sheet, laid(folder, "lids", LIST_MAP), "--json")
    told = json.loads(output)
    Draft202012Validator(json.loads((schema_folder() / "answer-import.json").read_text())).validate(told)
    assert (told["rows"], [one["id"] for one in told["drafts"]]) == (3, ["old-list", "flat-lid", "round-lid"])
    assert [(one["why"], one["row"], one["column"]) for one in told["left"]][:2] == [
        ("number", 4, "A"),
        ("part", 4, "B"),
    ]
    assert not (folder / "drafts").exists()


def test_what_the_checks_would_say_is_told(folder: Path) -> None:
    sheet = sheets.csv(
        folder.parent / "looks.csv", [*LOOKS, ["XA 700", "2024", "osk", "altered", "flat", None]]
    )
    told = imported(folder, sheet, laid(folder, "looks", LOOKS_MAP), "--plan")
    assert (
        "The checks would say of the records with the drafts (1):\n  content/teardowns/xa-700-osk.yml:"
        in told
    )


def test_a_map_is_begun_by_the_command(folder: Path) -> None:
    sheet = sheets.csv(folder.parent / "list.csv", LIST)
    done = run("import", sheet, "--guess", "assembly", "--folder", folder)
    assert '  - {column: "Part no.", field: parts.number}   # such as 12; 13; K-3\n' in done.output
    assert "section: title\n" in done.output


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (ACTS_MAP.replace("id: book", "id: bok"), "there is no source bok; give it a title and a class"),
        (ACTS_MAP.replace("old.number", "olt.number"), "the field olt.number, which no supersession has so"),
        (ACTS_MAP.replace("column: Year", "column: Yaer"), "there is no column Yaer; did you mean Year?"),
    ],
)
def test_a_map_that_cannot_be_used_is_told(text: str, told: str, folder: Path) -> None:
    sheet = sheets.csv(folder.parent / "acts.csv", ACTS)
    done = run("import", sheet, "--map", laid(folder, "acts", text), "--folder", folder, "--yes")
    assert (done.exit_code, told in done.output) == (1, True), done.output
    assert not (folder / "drafts").exists()


def test_what_is_not_installed_is_told_before_anything_is_read(
    folder: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(faces, "find_spec", lambda name: None)
    sheet = sheets.csv(folder.parent / "acts.csv", ACTS)
    done = run("import", sheet, "--map", laid(folder, "acts", ACTS_MAP), "--folder", folder)
    assert (done.exit_code, "pip install openpyxl python-calamine rapidfuzz" in done.output) == (1, True)


def test_nothing_is_written_without_a_yes(folder: Path) -> None:
    sheet, map_ = sheets.csv(folder.parent / "acts.csv", ACTS), laid(folder, "acts", ACTS_MAP)
    done = run("import", sheet, "--map", map_, "--folder", folder, typed="n\n")
    assert done.output.endswith("Nothing was written.\n")
    assert not (folder / "drafts").exists()
    assert run("import", sheet).exit_code == 2


def test_what_a_stranger_typed_drives_no_terminal(folder: Path) -> None:
    rows = [["Part no.", "Desc\u001b[2Jription"], ["K-1", "\u202ebonK\u001b[31m"]]
    sheet = sheets.csv(folder.parent / "acts\u001b[2J.csv", rows)
    begun = run("import", sheet, "--guess", "part", "--folder", folder).output
    text = "kind: part\nid: [Part no.]\ncolumns:\n- {letter: A, field: number}\n- {letter: B, field: name}\n"
    told = run(
        "import", sheet, "--map", laid(folder, "acts", text), "--folder", folder, "--plan", "--show", "9"
    )
    assert "B2" in told.output
    for output in (begun, told.output, run("import", sheet.with_suffix(".no"), "--guess", "part").output):
        assert output.replace("\n", "").isprintable(), output
