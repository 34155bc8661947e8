"""What evidence remarks, for and against, is wherever the statement is: on pages, in answers, and found."""

from __future__ import annotations

import json
import re
from html import unescape
from pathlib import Path

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.outputs.json.ask import as_object
from spanbook.outputs.text.ask import as_text
from spanbook.reading.schemas import folder
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.site.page import Around
from tests.support import worlds
from tests.support.rows import each_row

# Each statement is on the word of the book, and the letter speaks against it with a word of its own.
SAID = "evidence: [{source: book, note: %spro}, {source: letter, at: p. 2, against: true, note: %scontra}]"


def said(name: str) -> str:
    return SAID % (name, name)


WORLD = f"""\
# file: content/sources/letter.yml
kind: source
id: letter
title: The letter
class: ledger
# file: content/machines/y-one.yml
kind: machine
id: y-one
title: Y
maker: Example Works
series:
- {{id: ya, stamped: "Y {{number}}", plate: machine, first: 1, last: 9, {said("series")},
  years: {{1931: 1}}, years-{said("years")}}}
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
- {{series: xa, first: 1, last: 20, {said("span")}}}
tell: [Flat]
tell-{said("look")}
parts:
- {{number: "L-1", name: Gasket, {said("line")}}}
# file: content/assemblies/hat.yml
kind: assembly
id: hat
title: Hat
position: body/cover
serials:
- {{series: xa, first: 1, last: 20, fitted: field, evidence: [{{source: book}}]}}
# file: content/parts/gasket.yml
kind: part
id: gasket
number: "L-1"
name: Gasket
supplied: yes
tell: [Cork]
tell-{said("sign")}
supply-{said("supply")}
sizes:
- {{what: Bore, value: "1", unit: in, {said("size")}}}
{said("part")}
# file: content/supersessions/l-1-to-l-2.yml
kind: supersession
id: l-1-to-l-2
old: [{{number: "L-1"}}]
new: [{{number: "L-2"}}]
{said("act")}
# file: content/conversions/kit.yml
kind: conversion
id: kit
title: Kit
position: body/cover
from: [lid]
to: hat
serials: [{{series: xa, first: 1, last: 20}}]
{said("kit")}
"""
# Where each is shown, besides the page of the source.
SHOWN = {
    "series": ("machines/y-one/", "series/ya/"),
    "span": ("assemblies/lid/", "positions/body/cover/"),
    "line": ("assemblies/lid/",),
    "years": ("machines/y-one/", "series/ya/"),
    "part": ("parts/example-works/l-1/",),
    "sign": ("parts/example-works/l-1/",),
    "look": ("assemblies/lid/",),
    "supply": ("parts/example-works/l-1/",),
    "size": ("parts/example-works/l-1/",),
    "act": ("supersessions/l-1-to-l-2/", "parts/example-works/l-1/"),
    "kit": ("conversions/kit/",),
}
FOUND = {
    "series": "machines/y-one/",
    "span": "assemblies/lid/",
    "line": "assemblies/lid/",
    "years": "machines/y-one/",
    "part": "parts/example-works/l-1/",
    "sign": "parts/example-works/l-1/",
    "look": "assemblies/lid/",
    "supply": "parts/example-works/l-1/",
    "size": "parts/example-works/l-1/",
    "act": "parts/example-works/l-1/",
    "kit": "conversions/kit/",
}


@pytest.fixture(scope="module")
def answers(tmp_path_factory: pytest.TempPathFactory) -> Answers:
    found = worlds.check(tmp_path_factory.mktemp("remarks"), WORLD)
    assert not [p for p in found.problems if p.severity == "error"]
    return Answers(found.register)


@pytest.fixture(scope="module")
def pages(answers: Answers) -> dict[str, str]:
    made = views.all_pages(Site(answers))
    around = Around(help_address="how-to-read-a-page/")
    return {
        page.address: " ".join(unescape(re.sub("<[^>]*>", "", page.to_html(around))).split()) for page in made
    }


@each_row(("name", "page"), [(name, page) for name, on in SHOWN.items() for page in on])
def test_both_sides_are_on_the_page_and_it_is_disputed(name: str, page: str, pages: dict[str, str]) -> None:
    assert f"printed: The book: {name}pro" in pages[page]
    assert f"against: The letter, p. 2: {name}contra" in pages[page]
    assert "disputed" in pages[page]


@each_row("name", SHOWN)
def test_the_page_of_a_source_says_what_it_speaks_against(name: str, pages: dict[str, str]) -> None:
    against, other = (
        re.search(rf"(against: )?\w[^.]*?(\(p\. 2\))?\. {name}{side}", pages[f"sources/{source}/"])
        for source, side in (("letter", "contra"), ("book", "pro"))
    )
    assert against
    assert against[0].count("against: ") >= 1
    assert other
    assert "against: " not in other[0]


@each_row("name", FOUND)
@each_row("side", ["pro", "contra"])
def test_the_finder_finds_by_what_is_remarked(name: str, side: str, answers: Answers) -> None:
    asker = Asker(answers, documents(answers.register))
    assert [found.address for found in asker.ask(name + side).documents] == [FOUND[name]]


def test_the_command_says_both(answers: Answers) -> None:
    asker = Asker(answers, documents(answers.register))
    line = next(line for line in as_text(asker, "XA 3").splitlines() if "Lid:" in line)
    assert line.strip() == (
        "Lid: disputed by The letter, p. 2 (spancontra); from XA 1 to XA 20; "
        "on the word of The book (spanpro)"
    )
    changed = next(line for line in as_text(asker, "XA 3").splitlines() if "Hat:" in line)
    assert "disputed by The letter, p. 2 (kitcontra)" in changed


def test_the_json_has_every_reason(answers: Answers) -> None:
    made = as_object(Asker(answers, ()), "XA 3")
    schema = json.loads((Path(folder()) / "answer-ask.json").read_text(encoding="utf-8"))
    assert list(Draft202012Validator(schema).iter_errors(made)) == []
    cover = next(p for p in made["readings"][0]["positions"] if p["position"] == "body/cover")
    assert cover["left"][0]["reasons"] == [
        {"weight": "printed", "kind": "source", "id": "book", "at": None, "note": "spanpro"},
        {"weight": "against", "kind": "source", "id": "letter", "at": "p. 2", "note": "spancontra"},
    ]
    assert [r["note"] for r in cover["changed"][0]["conversions"][0]["reasons"]] == ["kitpro", "kitcontra"]
    assert [r["id"] for r in cover["changed"][0]["spans"][0]["reasons"]] == ["book"]
