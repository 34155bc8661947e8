"""One cell and its field: what is taken as it stands, and what only the person who typed it can tell."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.editing.sheets import Names, Why
from spanbook.editing.sheets.values import NotTaken, texts_of, tidy, value
from spanbook.reading.problems import Place
from spanbook.reading.sheets import SIGNS, Cell, CellSort, Column
from spanbook.reading.sheets.targets import target_of
from spanbook.reading.write import Value
from spanbook.register.model import Register
from tests.support import worlds
from tests.support.command import LID
from tests.support.rows import each_row


@pytest.fixture(scope="module")
def register(tmp_path_factory: pytest.TempPathFactory) -> Register:
    return worlds.check(tmp_path_factory.mktemp("world"), LID).register


def column(
    path: str,
    kind: str = "assembly",
    words: dict[str, str] | None = None,
    *,
    shown: bool = False,
    between: str = "",
    **more: str,
) -> Column:
    target = target_of(kind, path)
    return Column("A", "", target, False, between, shown, words or {}, Place("a.yml"), **more)


def taken(register: Register, of: Column, cell: Cell) -> list[Value] | Why:
    try:
        return [value(of.target.field, text, Names(register)) for text in texts_of(cell, of)]
    except NotTaken as why:
        return why.why


def number(text: str, *, exact: bool = False) -> Cell:
    return Cell(CellSort.NUMBER, text, exact)


def date(text: str, *, exact: bool = True) -> Cell:
    return Cell(CellSort.DATE, text, exact)


def text(said: str) -> Cell:
    return Cell(CellSort.TEXT, said)


TEXT, COUNT, BOUND = column("title"), column("parts.quantity"), column("serials.first")
YEAR, DAY = column("year", "source"), column("date", "teardown")
CHOICE, YES = column("serials.fitted"), column("serials.option")
NOTES = column("notes")


@each_row(
    ("of", "cell", "said"),
    [
        (TEXT, text("Lid"), ["Lid"]),
        (TEXT, text("  A\n lid\u00a0 "), ["A lid"]),
        (TEXT, number("12", exact=True), ["12"]),
        (TEXT, number("12"), Why.NUMBER),
        (TEXT, number("1.5"), Why.NUMBER),
        (column("title", shown=True), number("12"), ["12"]),
        (TEXT, date("2024-05-11"), Why.DATE),
        (TEXT, date("2024"), Why.DATE),
        (TEXT, Cell(CellSort.TRUTH, "yes", exact=False), Why.TRUTH),
        (TEXT, Cell(CellSort.ERROR, "#N/A", exact=False), Why.ERROR),
        (TEXT, Cell(CellSort.FORMULA, "=A1", exact=False), Why.FORMULA),
        (TEXT, text("x" * 301), Why.FORM),
        (TEXT, text("x" * 30_000), Why.FORM),
        (TEXT, text("x" * 30_001), Why.LONG),
        (TEXT, text("a\u200bb"), Why.HIDDEN),
        # Whoever made the map knows what a word means, whatever the program made of it.
        (column("title", words={"no": "Nothing"}), Cell(CellSort.TRUTH, "no", exact=False), ["Nothing"]),
        (column("title", words={"2024-05-11": "May the 11th"}), date("2024-05-11"), ["May the 11th"]),
        (column("title", words={"12": "0012"}), number("12"), ["0012"]),
        (column("title", words={"lid": "A lid"}), text("LID"), ["A lid"]),
        (COUNT, text("4"), [4]),
        (COUNT, number("4"), [4]),
        (COUNT, number("4.5"), Why.WHOLE),
        (COUNT, number("-4"), Why.WHOLE),
        (COUNT, text("four"), Why.FORM),
        (BOUND, text("588 to 612"), [[588, 612]]),
        (BOUND, number("588"), [588]),
        (BOUND, text("unknown"), ["unknown"]),
        (BOUND, text("about 588 ± 12"), ["about 588 ± 12"]),
        (BOUND, number("588.5"), Why.WHOLE),
        (YEAR, date("1934"), [1934]),
        (YEAR, date("1934-05"), Why.DATE),
        (YEAR, date("1934", exact=False), Why.DATE),
        (YEAR, number("1934"), [1934]),
        (DAY, date("2024-05-11"), ["2024-05-11"]),
        (DAY, date("2024-05"), ["2024-05"]),
        (DAY, date("2024-05-11", exact=False), Why.DATE),
        (DAY, text("2019/2021"), ["2019/2021"]),
        (DAY, text("May 2019"), Why.FORM),
        (CHOICE, text("Factory"), ["factory"]),
        (CHOICE, text("works"), Why.CHOICE),
        (column("condition", "teardown"), text("Likely  Original"), ["likely-original"]),
        (YES, text("TRUE"), [True]),
        (YES, text("No"), [False]),
        (YES, Cell(CellSort.TRUTH, "yes", exact=False), [True]),
        (YES, text("x"), Why.CHOICE),
        (NOTES, text("One\n\n  two  "), ["One\n\ntwo"]),
        (NOTES, text("body/cover"), ["body/cover"]),
        (column("position"), text("Cover"), ["body/cover"]),
        (column("position"), text("body/cover"), ["body/cover"]),
        (column("position"), text("Cove"), Why.UNKNOWN),
        (column("cautions"), text("Used oil"), ["used-oil"]),
        (column("serials.series"), text("XA"), ["xa"]),
        (column("serials.evidence.source"), text("THE BOOK"), ["book"]),
        (column("now"), text("lid"), ["lid"]),
        (column("number"), text("K-1"), ["K-1"]),
        (column("by"), text("castle"), ["castle"]),
        (column("by"), text("Castle & Co."), Why.FORM),
        (column("serials.first", before="-"), text("1 - 612"), [1]),
        (column("serials.last", after="-"), text("1 - 612"), [612]),
        (column("serials.first", before="-"), text("612"), Why.CUT),
        (column("title", after="No.", before="("), text("No. 12 (brass)"), ["12"]),
        (column("title", after="No.", before="("), text("12 (brass)"), Why.CUT),
        (column("date", "teardown", dates="day"), text("11.5.2024"), ["2024-05-11"]),
        (column("date", "teardown", dates="month"), text("5/11/2024"), ["2024-05-11"]),
        (column("date", "teardown", dates="day"), text("11.5.24"), Why.FORM),
        (column("date", "teardown", dates="day"), text("11.13.2024"), Why.FORM),
        (column("date", "teardown", dates="day"), text("2024-05"), ["2024-05"]),
        (DAY, text("11.5.2024"), Why.FORM),
        (column("tell", between=";"), text("A knob; four nuts;"), ["A knob", "four nuts"]),
    ],
)
def test_a_cell(of: Column, cell: Cell, said: list[Value] | Why, register: Register) -> None:
    assert taken(register, of, cell) == said


def test_a_decimal_comma_is_taken_where_the_map_says_that_it_is_one(register: Register) -> None:
    size = column("sizes.value", "part")
    assert taken(register, size, text("63,5")) is Why.COMMA
    assert taken(register, column("sizes.value", "part", decimals="comma"), text("63,5")) == ["63.5"]
    assert taken(register, column("title", decimals="comma"), text("one, two")) == ["one, two"]
    with pytest.raises(NotTaken) as told:
        value(size.target.field, "63,5", Names(register))
    assert told.value.about == "63.5"


@each_row(
    ("sign", "typed", "said"),
    [
        ("space", "1 201", [1201]),
        ("space", "1\u202f201", [1201]),
        ("space", "1 201 to 12 400", [[1201, 12400]]),
        ("space", "588 61", Why.FORM),
        ("space", "1 201 4", Why.FORM),
        ("space", "1201 204", Why.FORM),
        ("comma", "1,201", [1201]),
        ("point", "1.201.300", [1201300]),
        ("point", "1.2015", Why.FORM),
    ],
)
def test_thousands_are_put_together_where_the_map_names_what_is_between_them(
    sign: str, typed: str, said: list[Value] | Why, register: Register
) -> None:
    asked = column("serials.first", thousands=SIGNS[sign])
    assert taken(register, asked, text(typed)) == said
    assert taken(register, BOUND, text(typed)) is (Why.FORM if said is Why.FORM else Why.THOUSANDS)
    assert taken(register, column("title"), text(typed)) == [tidy(typed)]


def test_what_is_put_together_is_told(register: Register) -> None:
    """Two numbers with a space between them look the same: a person says which it is."""
    with pytest.raises(NotTaken) as told:
        value(BOUND.target.field, "588 612", Names(register))
    assert (told.value.why, told.value.about) == (Why.THOUSANDS, "588612")
    both = column("sizes.value", "part", decimals="comma", thousands=".")
    assert taken(register, both, text("1.201,5")) == ["1201.5"]


def test_what_it_may_be_is_told(register: Register) -> None:
    names = Names(register)
    for typed, about in (("Cove", "body/cover"), ("Zylinder", "")):
        with pytest.raises(NotTaken) as why:
            value(target_of("assembly", "position").field, typed, names)
        assert (why.value.why, why.value.about) == (Why.UNKNOWN, about)


def test_a_title_that_two_things_have_names_neither(tmp_path: Path) -> None:
    other = LID.replace("lid.yml", "other.yml").replace("id: lid", "id: other")
    names = Names(worlds.check(tmp_path, LID, other).register)
    with pytest.raises(NotTaken) as why:
        value(target_of("teardown", "found.assembly").field, "Lid", names)
    assert why.value.about == "lid, other" or why.value.about == "lid"


def test_a_text_is_tidied_and_never_changed() -> None:
    assert tidy(" a  b \n c ") == "a b c"
    assert tidy("a\n\n b", lines=True) == "a\n\nb"
