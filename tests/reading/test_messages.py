"""What is told of what people really type: what they meant, and something that can be pasted."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.reading import read_bytes
from spanbook.reading.nodes import Mapping, Node, Scalar, Sequence
from spanbook.reading.records import Record
from spanbook.reading.write import flow
from spanbook.reading.yaml import parse
from tests.support import worlds
from tests.support.rows import each_row

PART = "kind: part\nid: pack\nnumber: X-1\nname: Pack\n"
LID = (
    "kind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: hk, first: %s, last: 30}\n"
)


def told(text: str, kind: str = "part") -> list[tuple[str, str, str]]:
    """Rule, what was read and what to do, of each problem of a record."""
    id_ = re.search("id: (.+)", text)
    found = read_bytes(text.encode(), "a.yml", kind, id_[1] if id_ else "a")
    assert not isinstance(found, Record)
    return [(problem.name, problem.read, problem.todo) for problem in found]


QUOTE = "put the whole text in quotes: "
OUT_OF_LINE = "a line that is not in line with those above it"
TYPED = {
    "a comma in braces": (
        "evidence: [{source: a, at: p. 31, fig. 12}]",
        [("text-unquoted", "a comma ends the text before “fig. 12”", QUOTE + 'at: "p. 31, fig. 12"')],
    ),
    "commas in two texts": (
        "evidence: [{source: a, at: p. 3, 4, note: x, y, z}]",
        [
            ("text-unquoted", "a comma ends the text before “4”", QUOTE + 'at: "p. 3, 4"'),
            ("text-unquoted", "a comma ends the text before “y”", QUOTE + 'note: "x, y, z"'),
        ],
    ),
    "the same after two commas": (
        "evidence: [{source: a, at: 4, 5, note: 3, 5}]",
        [("key-twice", "the key 5 again; it is also on line 5", "put text with commas in it in quotes")],
    ),
    "a key twice": (
        "evidence: [{source: a, at: , at: 5}]",
        [("key-twice", "the key at again; it is also on line 5", "keep one of them")],
    ),
    "a key with a colon and nothing is no text": (
        "evidence: [{source: a, zebra: }]",
        [
            (
                "key-unknown",
                "the key “zebra” is not known here",
                "delete it, or use one of source, teardown, at, against, note",
            )
        ],
    ),
    "a colon in braces": (
        "evidence: [{source: a, at: p. 31: fig. 12, note: x}]",
        [("yaml-broken", "a colon in text without quotes", QUOTE + 'at: "p. 31: fig. 12"')],
    ),
    "a colon in a list on one line": (
        "tell: [one, Knob: left: right]",
        [("yaml-broken", "a colon in text without quotes", QUOTE + '"Knob: left: right"')],
    ),
    "a colon in a list": (
        "tell:\n- Knob: turns the pack",
        [
            (
                "text-unquoted",
                "a colon and a space in a text make a key of what stands before them",
                QUOTE + '"Knob: turns the pack"',
            )
        ],
    ),
    "a colon in a line": (
        "material: Steel: hard # comment",
        [("yaml-broken", "a colon in text without quotes", QUOTE + 'material: "Steel: hard"')],
    ),
    "a key that is moved in": (
        "  material: Steel",
        [
            (
                "yaml-broken",
                "a key where the value before it goes on",
                "begin it in the same column as the keys beside it",
            )
        ],
    ),
    "a sign that begins nothing": (
        "material: @home",
        [("yaml-broken", "text that begins with @", QUOTE + 'material: "@home"')],
    ),
    "quotes around a part of it": (
        'material: "Hard" steel',
        [
            (
                "yaml-broken",
                "text that goes on after its closing quote",
                "close the quotes at the end of the text; "
                r"""inside "..." write \" for a quote, inside '...' write ''""",
            )
        ],
    ),
    "a brace that is not closed": (
        "evidence: [{source: a",
        [
            (
                "yaml-broken",
                "{ opens here and is not closed",
                "close it with }, or put text with that sign in it in quotes",
            )
        ],
    ),
    "a brace in a comment": (
        "evidence: [{source: a, at: plate # 3}]",
        [
            (
                "yaml-broken",
                "{ is closed only in a comment, if at all",
                "put text with # in it in quotes; after a blank # begins a comment, to the end of the line",
            )
        ],
    ),
    "a decimal comma in braces": (
        "sizes: [{what: Bore, value: 1,6, unit: mm}]",
        [
            (
                "text-unquoted",
                "a comma ends the text before “6”",
                "write its decimals after a point: value: 1.6",
            )
        ],
    ),
    "a decimal comma": (
        'sizes: [{what: Bore, value: "1,6", unit: mm}]',
        [("value-form", "read “1,6”", "write its decimals after a point: 1.6")],
    ),
    "commas without blanks": (
        "evidence: [{source: a, at: p. 3,4, fig. 5}]",
        [("text-unquoted", "a comma ends the text before “4”", QUOTE + 'at: "p. 3,4, fig. 5"')],
    ),
    "nobody knows": (
        "material: ?",
        [
            (
                "yaml-broken",
                "text that begins with ?",
                'write unknown where nobody knows; as text it goes in quotes: "?"',
            )
        ],
    ),
    "nobody knows, in a list": (
        "marks: [?, a]",
        [
            (
                "yaml-broken",
                "text that begins with ?",
                'write unknown where nobody knows; as text it goes in quotes: "?"',
            )
        ],
    ),
    "text that begins with ? and goes on": (
        "material: ? iron",
        [("yaml-broken", "text that begins with ?", QUOTE + 'material: "? iron"')],
    ),
    "text that begins with >": (
        "material: > 5",
        [("yaml-broken", "text that begins with >", QUOTE + 'material: "> 5"')],
    ),
    "quotes that stay open in braces": (
        'evidence:\n  - {source: "a, at: p. 3}\n  - {source: "b"}',
        [
            (
                "yaml-broken",
                "quotes that open in this line and do not close in it",
                "close the quotes at the end of the text; "
                r"""inside "..." write \" for a quote, inside '...' write ''""",
            )
        ],
    ),
    "a comma forgotten": (
        'evidence: [{source: "a" at: x}]',
        [("yaml-broken", "no comma before at", "put one there, or text in quotes")],
    ),
    "a key of a list out of line": (
        "evidence:\n  - source: a\n   at: p. 3",
        [("yaml-broken", OUT_OF_LINE, "begin it in the same column as the keys beside it")],
    ),
    "a key out of line": (
        "sizes:\n    - what: Bore\n  unit: mm",
        [("yaml-broken", OUT_OF_LINE, "begin it in the same column as the keys beside it")],
    ),
    "an item out of line": (
        "evidence:\n  - source: a\n - source: b",
        [("yaml-broken", OUT_OF_LINE, "begin it in the same column as the items beside it")],
    ),
    "a line without a key": (
        "material:Steel\nnotes: x",
        [
            (
                "yaml-broken",
                "a line without a key",
                "put a colon and a blank after its key, or indent text that goes on deeper than its key",
            )
        ],
    ),
    "a merge that was not finished": (
        "<<<<<<< HEAD\nmaterial: a\n=======\nmaterial: b\n>>>>>>> theirs",
        [
            (
                "yaml-broken",
                "the marks of a merge that was not finished",
                "keep one side, or write both together, and delete the lines of the marks",
            )
        ],
    ),
    "nothing at all": (
        "material:",
        [
            (
                "value-form",
                "read nothing",
                "write something, for example Phosphor bronze, or delete the key if it may be left out",
            )
        ],
    ),
    "a blank at the end": (
        "material: 'Steel '",
        [
            (
                "value-form",
                "read “Steel ”",
                "write it on one line, with nothing blank at its ends, like Phosphor bronze",
            )
        ],
    ),
    "a size with its unit": (
        "sizes: [{what: Bore, value: 3 mm, unit: mm}]",
        [
            (
                "value-form",
                "read “3 mm”",
                "write the number alone and its unit beside it: value: 3, unit: mm",
            )
        ],
    ),
    "a size with its unit, which is nowhere else": (
        "sizes: [{what: Bore, value: '2½\"'}]",
        [
            ("key-missing", "unit is missing", "add unit, for example unit: in"),
            (
                "value-form",
                'read “2½"”',
                "write the number alone and its unit beside it: value: 2 1/2, unit: in",
            ),
        ],
    ),
    "a size in millimetres, with no other unit": (
        "sizes: [{what: Bore, value: '4,5mm'}]",
        [
            ("key-missing", "unit is missing", "add unit, for example unit: mm"),
            (
                "value-form",
                "read “4,5mm”",
                "write the number alone and its unit beside it: value: 4.5, unit: mm",
            ),
        ],
    ),
    "a text that only looks like thousands": (
        "evidence: [{source: a, at: 1,480}]",
        [("text-unquoted", "a comma ends the text before “480”", QUOTE + 'at: "1,480"')],
    ),
    "a fraction in one sign": (
        "sizes: [{what: Bore, value: ¾, unit: in}]",
        [("value-form", "read “¾”", "write it like 3/4")],
    ),
    "a size in a unit that is none": (
        "sizes: [{what: Bore, value: 3 barleycorns, unit: in}]",
        [("value-form", "read “3 barleycorns”", "write it like 3 1/8")],
    ),
    "a blank of another sort behind a key": (
        "material:\u00a0Steel\nnotes: x",
        [
            (
                "yaml-broken",
                "a blank of another sort, U+00A0, which YAML takes for a letter",
                "type a plain blank in its place",
            )
        ],
    ),
    "blanks of another sort before a line": (
        "tell:\n  - one\n\u00a0\u00a0- two",
        [
            (
                "yaml-broken",
                "a blank of another sort, U+00A0, which YAML takes for a letter",
                "type a plain blank in its place",
            )
        ],
    ),
    "none of a choice": (
        "marks: [{text: a, how: glued}]",
        [("value-not-a-choice", "read “glued”", "it is one of: cast, stamped, etched, painted, tag")],
    ),
    "a list of nothing": (
        "marks: []",
        [("value-amount", "read []", "write at least one entry, or delete the key if it may be left out")],
    ),
}


@each_row(("line", "said"), TYPED.values())
def test_what_was_meant_is_told(line: str, said: list[tuple[str, str, str]]) -> None:
    assert told(f"{PART}{line}\n") == said


@pytest.mark.parametrize("number", ["“X 1”", "„X 1“", "« X 1 »"])
def test_quotes_of_a_telephone_are_no_part_of_a_number(number: str) -> None:
    said = (
        "value-form",
        f"read “{number}”",
        "the quotes would be part of it; write straight ones, or none: X 1",
    )
    assert told(PART.replace("X-1", number)) == [said]


@pytest.mark.parametrize("number", ["1/2” X", "X 1”", "X 1'"])
def test_a_sign_of_inches_is_a_part_of_a_number(number: str) -> None:
    assert isinstance(read_bytes(PART.replace("X-1", number).encode(), "a.yml", "part", "pack"), Record)


@pytest.mark.parametrize(("unit", "word"), [("inches", "in"), ("'\"'", "in"), ("Millimetres", "mm")])
def test_a_unit_is_told_as_records_have_it(unit: str, word: str) -> None:
    ((name, _, todo),) = told(f"{PART}sizes: [{{what: Bore, value: 3, unit: {unit}}}]\n")
    assert name == "value-not-a-choice"
    assert todo.startswith(f"did you mean {word}? ")


SEEN = (
    "kind: teardown\nid: a\ndate: %s\nseen-by: m\nserial: X 7\ncondition: untouched\n"
    "found: [{position: body/cover, note: A lid}]\n"
)


@pytest.mark.parametrize(
    ("day", "todo"),
    [
        ("11.8.2023", "write it like 2023-08-11"),
        ("2023-8-1", "write it like 2023-08-01"),
        ("25/12/2023", "write it like 2023-12-25"),
        ("12/25/2023", "write it like 2023-12-25"),
        ("7/7/2023", "write it like 2023-07-07"),
        # Of two days nobody knows which.
        ("3/2/2023", "write it like 2024-05-11"),
        ("31.2.2023", "there is no such day; write the right one, or the month alone: 2023-02"),
        ("2023-02-31", "there is no such day; write the right one, or the month alone: 2023-02"),
        ("2023-06-31", "there is no such day; write the right one, or the month alone: 2023-06"),
        ("2023-13-01", "write it like 2024-05-11"),
        ("2023-02/2023-04-31", "write it like 2024-05-11"),
    ],
)
def test_a_day_is_told_as_it_is_written(day: str, todo: str) -> None:
    assert told(SEEN % day, "teardown") == [("value-form", f"read “{day}”", todo)]


@pytest.mark.parametrize(
    "day", ["2023-02-28", "2024-02-29", "2023-01-31", "2023-11-30", "2023-12/2024-10-31"]
)
def test_a_day_that_there_is_is_taken(day: str) -> None:
    assert isinstance(read_bytes((SEEN % day).encode(), "a.yml", "teardown", "a"), Record)


def taken(bound: str) -> bool:
    return isinstance(read_bytes((LID % bound).encode(), "a.yml", "assembly", "lid"), Record)


def test_a_number_with_a_comma_between_its_thousands_is_told_without_it() -> None:
    """In quotes, as other text with a comma is told, it would be no number."""
    said = told((LID % 7).replace("last: 30", "last: 1,480"), "assembly")
    assert said == [
        ("text-unquoted", "a comma ends the text before “480”", "write the number without commas: last: 1480")
    ]


@pytest.mark.parametrize(
    ("bound", "about", "pair"),
    [
        ("about 20", "about 20 ± 2", "[18, 22]"),
        ("About 1", "about 1 ± 2", "[0, 3]"),
        ("ca. 588", "about 588 ± 10", "[578, 598]"),
        ("c. 20", "about 20 ± 2", "[18, 22]"),
        ("~20", "about 20 ± 2", "[18, 22]"),
        ("20?", "about 20 ± 2", "[18, 22]"),
    ],
)
def test_about_a_number_says_how_far_off(bound: str, about: str, pair: str) -> None:
    ((name, read, todo),) = told(LID % bound, "assembly")
    assert (name, read) == ("value-kind", f"read “{bound}”")
    assert todo == (
        f"say how far off it may be, for example {about}; or write a pair, the lowest and the highest it "
        f"may be: {pair}"
    )
    assert taken(about)
    assert taken(pair)


@pytest.mark.parametrize("bound", ["20 ± 2", "ca. 20 +/- 2", "About 20±2", "about 20 + - 2", "about 020 ± 2"])
def test_how_about_a_number_is_written(bound: str) -> None:
    ((_, _, todo),) = told(LID % bound, "assembly")
    assert todo == "write it like this: about 20 ± 2"
    assert taken("about 20 ± 2")
    assert taken("about 20 +- 2")


def test_where_a_number_must_be_sure_no_pair_is_offered() -> None:
    head = "kind: machine\nid: m\ntitle: M\nmaker: W\nseries:\n"
    series = "- {id: s, stamped: '{number}', plate: p, first: 1, last: about 20}\n"
    ((_, _, todo),) = told(head + series, "machine")
    assert todo == "write it like 2140, 6-260/27 or unknown"


@pytest.mark.parametrize(
    ("bound", "pair"),
    [
        ("18-22", "[18, 22]"),
        ("22 to 18", "[18, 22]"),
        # What a range leaves out is what its numbers have in common; a word between them leaves nothing out.
        ("118-22", "[118, 122]"),
        ("1480 to 95", "[95, 1480]"),
    ],
)
def test_a_number_that_is_not_sure_is_a_pair(bound: str, pair: str) -> None:
    ((name, read, todo),) = told(LID % bound, "assembly")
    assert (name, read) == ("value-kind", f"read “{bound}”")
    assert todo == f"write a number that is not sure as a pair, the lowest and the highest it may be: {pair}"
    assert taken(pair)


@pytest.mark.parametrize(("years", "pair"), [("1911–13", "[1911, 1913]"), ("1899/03", "[1899, 1903]")])
def test_years_that_leave_out_the_century_are_a_pair(years: str, pair: str) -> None:
    act = "kind: supersession\nid: s\nold: [{number: X 1}]\nnew: [{number: X 2}]\nyear: "
    ((_, _, todo),) = told(f"{act}{years}\n", "supersession")
    assert todo == f"write a number that is not sure as a pair, the lowest and the highest it may be: {pair}"
    assert isinstance(read_bytes(f"{act}{pair}\n".encode(), "a.yml", "supersession", "s"), Record)


@pytest.mark.parametrize("bound", ["twenty", "about twenty", "20 20", "abc20"])
def test_other_words_get_the_forms_of_a_bound(bound: str) -> None:
    ((_, _, todo),) = told(LID % bound, "assembly")
    assert todo == "write it like 1, [588, 612], about 588 ± 12 or unknown"


def test_what_is_to_be_copied_has_no_curly_quotes() -> None:
    broken = (
        f"{PART}evidence: {{source: a}}\n",
        f"{PART}sizes: [{{what: 3}}]\n",
        f"{PART}tell: x\n",
        f"{PART}material: [x]\n",
        "kind: part\nid: pack\n",
    )
    for text in broken:
        for _, _, todo in told(text):
            assert "for example" in todo
            assert not set("“”‘’") & set(todo)


words = st.text(st.characters(categories=["L", "N", "P", "S", "Zs"]), min_size=1, max_size=20).filter(
    lambda text: text.isprintable()
)
values = st.recursive(
    words,
    lambda below: st.lists(below, max_size=3) | st.dictionaries(words.filter(lambda w: w != "<<"), below),
    max_leaves=8,
)


@given(values)
def test_an_example_reads_back_wherever_it_is_pasted(value: object) -> None:
    node = parse(f"a: {flow(value)}\nb: [{flow(value)}]\n")
    assert plain(node) == {"a": value, "b": [value]}


def plain(node: Node) -> object:
    if isinstance(node, Scalar):
        return node.text
    if isinstance(node, Sequence):
        return [plain(item) for item in node.items]
    assert isinstance(node, Mapping)
    return {key: plain(value) for key, value in node.values.items()}


SPAN = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"


def test_an_example_is_the_communitys_own_where_it_has_one(tmp_path: Path) -> None:
    cap = (
        SPAN.replace("lid", "cap").replace("Lid", "'Cap: iron'")
        + "serials: [{series: xb, first: 7, last: [8, 9]}]\n"
    )
    broken = (
        SPAN.replace("title: Lid\nposition: body/cover\n", "") + "serials: [{option: false}]\ncautions: [U]\n"
    )
    found = worlds.check(tmp_path, cap, broken).problems
    said = {problem.todo for problem in found if problem.place.path.endswith("lid.yml")}
    assert said == {
        f"add title, for example title: {json.dumps('Cap: iron')}",
        "add position, for example position: body/cover",
        "add series, for example series: xb",
        "add first, for example first: 7",
        "add last, for example last: [8, 9]",
        "write it like used-oil",
    }


def test_of_dates_that_is_shown_which_is_written_as_most_are(tmp_path: Path) -> None:
    seen = (
        "# file: content/teardowns/a-{0}.yml\nkind: teardown\nid: a-{0}\ndate: {1}\nseen-by: merrin\n"
        "serial: XA {0}\ncondition: untouched\nfound: [{{position: body/cover, note: A lid}}]\n"
    )
    sound = (seen.format(7, "2006/2007-07"), seen.format(8, "2019-03-02"), seen.format(9, "2021-11-30"))
    (problem,) = worlds.check(tmp_path, *sound, seen.format(10, "12/09/2025")).problems
    assert (problem.read, problem.todo) == ("read “12/09/2025”", "write it like 2019-03-02")


@pytest.mark.parametrize(
    ("named", "todo"),
    [
        ("A Lid of Iron", "did you mean lid?"),
        ("L 7", "did you mean lid?"),
        ("Lidd", "did you mean lid?"),
        # What is nothing's name gets a name in form.
        ("Something else", "write it like cap"),
    ],
)
def test_what_is_named_by_its_title_or_number_gets_its_id(named: str, todo: str, tmp_path: Path) -> None:
    """An id that another record names is no answer to a title: copied, it would say something else."""
    span = "serials: [{series: xb, first: 7, last: 9}]\n"
    cap = SPAN.replace("lid", "cap").replace("Lid", "Cap") + span
    lid = SPAN.replace("title: Lid", "title: A lid of iron\nnumber: L 7") + span
    seen = "# file: content/teardowns/a.yml\n" + (SEEN % "2024").replace("X 7", "XB 7")
    sound = (
        seen.replace("a.yml", "one.yml").replace("id: a", "id: one").replace("note: A lid", "assembly: cap")
    )
    broken = (
        seen.replace("a.yml", "two.yml")
        .replace("id: a", "id: two")
        .replace("note: A lid", f"assembly: {named}")
    )
    found = worlds.check(tmp_path, cap, lid, sound, broken).problems
    assert [p.todo for p in found if p.place.path.endswith("two.yml")] == [todo]


def test_an_id_that_is_missing_is_the_files_name(tmp_path: Path) -> None:
    broken = "# file: content/sources/tale.yml\nkind: source\ntitle: T\nclass: manual\n"
    (problem,) = worlds.check(tmp_path, broken).problems
    assert problem.todo == "add id, for example id: tale"


def test_an_id_out_of_form_is_the_files_name_in_form(tmp_path: Path) -> None:
    broken = "# file: content/sources/Big_Tale.yml\nkind: source\nid: Big_Tale\ntitle: T\nclass: manual\n"
    (problem,) = worlds.check(tmp_path, broken).problems
    assert (problem.read, problem.todo) == ("read “Big_Tale”", "write it like big-tale")
