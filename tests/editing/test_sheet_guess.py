"""A map to begin with, guessed from a sheet."""

from __future__ import annotations

import pytest

from spanbook.editing.sheets import Names, filled
from spanbook.editing.sheets.begun import map_text
from spanbook.editing.sheets.columns import laid
from spanbook.editing.sheets.guess import guesses, headings_row, sections
from spanbook.ground.language import speaking
from spanbook.reading.problems import Problems
from spanbook.reading.sheets import read_map
from spanbook.reading.write import flow
from spanbook.register.model import Register
from tests.support.drafted import sheet


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


def test_headings_are_read_in_the_language_of_the_project_too(register: Register) -> None:
    head = ["Nom", "Emplacement", "Série", "Du n°", "Au n°", "Source", "Page"]
    spans = sheet(head, ["Clapet", "Pompe", "VP", "1", "250", "Catalogue", "p. 4"])
    parts = sheet(["Numéro de pièce", "Désignation", "Qté"], ["VP-1", "Clapet", "2"])
    with speaking("fr"):
        fields = [one.field for one in guesses(spans, "assembly", 1)]
        named = [one.field for one in guesses(parts, "part", 1)]
        text = "\n".join(map_text(parts, "part", 1, guesses(parts, "part", 1), "windows-1252"))
    assert fields[:5] == ["title", "position", "serials.series", "serials.first", "serials.last"]
    assert fields[5:] == ["serials.evidence.source", "serials.evidence.at"]
    assert named[:2] == ["number", "name"]
    assert "# Le fichier n’est pas en UTF-8" in text
    assert "\nencoding: windows-1252\n" in text
    assert "such as" not in text


def test_a_column_with_decimal_commas_says_so(register: Register) -> None:
    found = guesses(read := sheet(["Number", "Material"], ["P-1", "63,5"]), "part", 1)
    assert "decimals: comma" in "\n".join(map_text(read, "part", 1, found))
