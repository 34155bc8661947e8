"""Records in several languages: each is called as in the one spoken, and found by all of its titles."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook import OpenRegister, Problems, open_register
from spanbook.ground.language import speaking
from spanbook.site.documents import documents

LID = """kind: assembly
id: lid
title: Lid
titles: [{language: de, title: Deckel}, {language: fr, title: Couvercle}]
position: body/cover
number: P-1
serials:
- {series: xa, first: 1, last: 20, evidence: [{source: book}]}
"""
RECORDS = {
    "assemblies/lid.yml": LID,
    "machines/x.yml": "kind: machine\nid: x\ntitle: X\nmaker: Works\nseries:\n"
    "- {id: xa, stamped: 'X {number}', plate: machine, first: 1, last: 40, evidence: [{source: book}]}\n",
    "positions.yml": "kind: positions\npositions:\n- id: body\n  title: Body\n"
    "  titles: [{language: de, title: Gehäuse}]\n"
    "  positions:\n  - {id: cover, title: Cover, titles: [{language: fr, title: Capot}]}\n",
    "parts/p.yml": "kind: part\nid: p\nnumber: P-1\nname: Lid part\n"
    "names: [{language: de, title: Deckelteil}]\n",
    "sources/book.yml": "kind: source\nid: book\ntitle: Book\nclass: parts-book\n",
}


def opened(folder: Path, language: str) -> OpenRegister:
    for name, text in RECORDS.items():
        (folder / "content" / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / "content" / name).write_text(text, encoding="utf-8")
    with speaking(language):
        return open_register(folder)


@pytest.mark.parametrize(
    ("language", "lid", "body", "cover", "part"),
    [
        ("en", "Lid", "Body", "Cover", "Lid part"),
        ("de", "Deckel", "Gehäuse", "Cover", "Deckelteil"),
    ],
)
def test_things_are_called_as_the_language_has_it(
    tmp_path: Path, language: str, lid: str, body: str, cover: str, part: str
) -> None:
    register = opened(tmp_path, language)
    assert register.assemblies["lid"].title == lid
    assert [register.positions[path].title for path in ("body", "body/cover")] == [body, cover]
    assert next(iter(register.parts.values())).names[0] == part


@pytest.mark.parametrize("language", ["en", "de"])
def test_they_are_found_by_every_title(tmp_path: Path, language: str) -> None:
    strong = " ".join(document.strong for document in documents(opened(tmp_path, language)))
    assert set(strong.split()) >= {"Lid", "Deckel", "Couvercle", "Gehäuse", "Body", "Capot", "Deckelteil"}


def test_what_is_typed_stays_as_it_is_typed(tmp_path: Path) -> None:
    node = opened(tmp_path, "de").assemblies["lid"].origin.node
    assert "Deckel" in str(node)
    assert "Lid" in str(node)


def test_a_language_that_is_none_is_refused(tmp_path: Path) -> None:
    opened(tmp_path, "en")
    (tmp_path / "content/assemblies/lid.yml").write_text(LID.replace("de,", "german,"), encoding="utf-8")
    with pytest.raises(Problems, match="german"):
        open_register(tmp_path)
