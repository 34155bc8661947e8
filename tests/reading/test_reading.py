"""From bytes to records: text is text, everything has a place, and one broken file hides no other."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.reading import read_bytes, read_tree, schemas
from spanbook.reading.files import Folder
from spanbook.reading.kinds import KINDS
from spanbook.reading.nodes import Mapping
from spanbook.reading.problems import Problem
from spanbook.reading.records import Assembly, PartRecord, Record, Source
from spanbook.reading.text import to_text
from spanbook.reading.yaml import parse
from tests.support import worlds
from tests.support.rows import each_row

SOURCE = "kind: source\nid: a\ntitle: {title}\nclass: manual\n"


def read_source(title: str) -> Record | tuple[Problem, ...]:
    return read_bytes(SOURCE.format(title=title).encode(), "content/sources/a.yml", "source", "a")


TRICKY = ["0012", "8E10", "1.10", "no", "1_000", "12:30:45", "2026-04-01", "null", "~", "0x1F", ".inf", "yes"]


@each_row("text", TRICKY)
@each_row("quote", ["{}", '"{}"', "'{}'"])
def test_text_arrives_as_it_was_typed(text: str, quote: str) -> None:
    record = read_source(quote.format(text))
    assert isinstance(record, Source)
    assert record.title == text


visible = st.text(
    st.characters(categories=["L", "N", "P", "S", "Zs"], exclude_characters="\u3164\u115f\u1160\uffa0\u2800"),
    min_size=1,
    max_size=60,
).filter(lambda t: t == t.strip() and t.isprintable())


@given(visible)
def test_any_visible_text_in_double_quotes_arrives_as_it_was_typed(text: str) -> None:
    record = read_source(json.dumps(text, ensure_ascii=False))
    assert isinstance(record, Source)
    assert record.title == text


ASSEMBLY = """\
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
- {series: xa, first: 1, last: 20}
parts:
- number: 0012
  name: Bolt
  quantity: %s
"""


def read_assembly(quantity: str) -> Record | tuple[Problem, ...]:
    return read_bytes((ASSEMBLY % quantity).encode(), "lid.yml", "assembly", "lid")


@pytest.mark.parametrize("quantity", ["2", '"2"'])
def test_a_number_is_a_number_where_one_is_wanted(quantity: str) -> None:
    record = read_assembly(quantity)
    assert isinstance(record, Assembly)
    assert record.parts[0].quantity == 2
    assert record.parts[0].number == "0012"


@each_row("quantity", ["two", "2.0", "0x2", "02", "1_0", "+2", "2e0", "９", '""', "true"])
def test_other_notations_are_errors_at_their_place(quantity: str) -> None:
    problems = read_assembly(quantity)
    assert isinstance(problems, tuple)
    (problem,) = problems
    assert problem.name == "value-not-a-number"
    assert (problem.place.line, problem.place.column) == (10, 13)


def test_places_count_characters_not_bytes() -> None:
    node = parse("title: ⅞ Ünïon # note\nlist: [α, {β: γ}]\n")
    assert isinstance(node, Mapping)
    from spanbook.reading.nodes import place_of

    assert place_of(node, ("list", 1, "β")) == (2, 15)
    assert place_of(node, ("list", 1, "β"), key=True) == (2, 12)
    assert place_of(node, ("list", 7)) == (2, 7)
    assert place_of(node, ("title", "deeper")) == (1, 8)


def test_an_unknown_key_gets_a_guess() -> None:
    problems = read_bytes(b"kind: source\nid: a\ntittle: x\nclass: manual\n", "a.yml", "source", "a")
    assert isinstance(problems, tuple)
    assert {(p.name, p.place.line, p.todo) for p in problems} == {
        ("key-unknown", 3, "did you mean title?"),
        ("key-missing", 1, "add title, for example title: Parts book for the Type H engine"),
    }


def test_a_stranger_cannot_forge_a_second_line() -> None:
    bad = 'kind: source\nid: a\ntitle: A\nclass: "x\\n::error::gone"\n'
    problems = read_bytes(bad.encode(), "a.yml", "source", "a")
    assert isinstance(problems, tuple)
    told = str(problems[0])
    assert "\n" not in told
    assert "\\u000a::error::gone" in told


@pytest.mark.parametrize("line_end", ["\n", "\r\n"])
def test_windows_line_ends_are_line_ends(line_end: str) -> None:
    assert to_text(f"a: 1{line_end}b: 2{line_end}".encode()) == "a: 1\nb: 2\n"


def test_one_broken_file_hides_no_other(tmp_path: Path) -> None:
    head = "# file: content/sources/"
    worlds.lay(
        tmp_path,
        f"{head}a.yml\nkind: [",
        f"{head}b.yml\nkind: source\nid: b\n",
        f"{head}c.yml\nkind: source\nid: c\ntitle: C\nclass: manual\n",
    )
    read = read_tree(Folder(tmp_path / "content"))
    assert {p.place.path for p in read.problems} == {"content/sources/a.yml", "content/sources/b.yml"}
    assert {"c", "book"} <= {record.id for record in read.records}


def test_hidden_folders_are_not_read(tmp_path: Path) -> None:
    worlds.lay(tmp_path, "# file: content/.cache/x.yml\nkind: [")
    assert read_tree(Folder(tmp_path / "content")).problems == ()


@pytest.mark.parametrize(
    ("path", "name"),
    [
        ("sources/x.yaml", "file-place"),
        ("x.yml", "file-place"),
        ("letters/x.yml", "file-place"),
        ("positions/x.yml", "file-place"),
        ("sources/aux.d/x.yml", "file-reserved"),
        ("sources/index.yml", "file-reserved"),
    ],
)
def test_files_in_wrong_places(path: str, name: str, tmp_path: Path) -> None:
    worlds.lay(tmp_path, f"# file: content/{path}\nkind: source\nid: x\ntitle: X\nclass: manual\n")
    assert [p.name for p in read_tree(Folder(tmp_path / "content")).problems] == [name]


def test_a_linked_folder_is_refused_and_not_entered(tmp_path: Path) -> None:
    (tmp_path / "elsewhere").mkdir()
    (tmp_path / "elsewhere/x.yml").write_text("kind: [")
    worlds.lay(tmp_path, "# link: content/sources/linked -> ../../elsewhere")
    (problem,) = read_tree(Folder(tmp_path / "content")).problems
    assert (problem.name, problem.place.path) == ("file-link", "content/sources/linked")


@given(st.binary(max_size=300))
def test_nothing_but_a_record_or_problems_comes_of_any_bytes(data: bytes) -> None:
    result = read_bytes(data, "x.yml", "assembly", "x")
    assert isinstance(result, Record) or (result and all(isinstance(p, Problem) for p in result))


@given(st.text(st.sampled_from("kind: assembly\n- {}[]\"'&*!|>%#?,\t"), max_size=80))
def test_nothing_but_a_record_or_problems_comes_of_yaml_like_text(text: str) -> None:
    result = read_bytes(f"kind: assembly\n{text}".encode(), "x.yml", "assembly", "x")
    assert isinstance(result, Record) or (result and all(isinstance(p, Problem) for p in result))


def test_every_kind_has_a_schema() -> None:
    assert {f"{kind}.json" for kind in KINDS} <= {p.name for p in schemas.folder().glob("*.json")}


def test_every_key_that_is_missing_or_unknown_is_told_in_one_go() -> None:
    text = "kind: source\nid: a\ncolour: red\nshape: round\n"
    problems = read_bytes(text.encode(), "a.yml", "source", "a")
    assert isinstance(problems, tuple)
    assert sorted((p.name, p.place.line, p.read) for p in problems) == [
        ("key-missing", 1, "class is missing"),
        ("key-missing", 1, "title is missing"),
        ("key-unknown", 3, "the key “colour” is not known here"),
        ("key-unknown", 4, "the key “shape” is not known here"),
    ]


PART = "kind: part\nid: p\nnumber: P\nname: P\nsizes: [{what: gap, value: '3', unit: %s}]\n"


@pytest.mark.parametrize("unit", ["\N{MICRO SIGN}m", "\N{GREEK SMALL LETTER MU}m"])
def test_the_micro_sign_and_a_greek_mu_are_one_letter(unit: str) -> None:
    record = read_bytes((PART % unit).encode(), "content/parts/p.yml", "part", "p")
    assert isinstance(record, PartRecord), record
    assert record.sizes[0].unit == "\N{MICRO SIGN}m"


def test_a_word_that_the_schema_does_not_list_stays_as_it_was_typed() -> None:
    found = read_bytes((PART % "\N{GREEK SMALL LETTER MU}").encode(), "content/parts/p.yml", "part", "p")
    assert isinstance(found, tuple)
    assert "\N{GREEK SMALL LETTER MU}" in found[0].read
