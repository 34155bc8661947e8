"""What pages say to programs: JSON-LD, and the record beside its page."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema_rs import Draft202012Validator

from spanbook.answers.answers import Answers
from spanbook.reading.plain import plain
from spanbook.reading.schemas import folder, of_kind
from spanbook.site import linked, record_files, views
from spanbook.site.common import Site
from spanbook.site.data import DataShown
from spanbook.site.page import Around, SitePage
from tests.support import worlds
from tests.support.command import CONFIG, LID, project, run
from tests.support.demo import demo

LAW, STATE = (
    Draft202012Validator(json.loads((folder() / name).read_text(encoding="utf-8")))
    for name in ("answer-record.json", "answer-state.json")
)
BLOCK = re.compile(r'<script type="application/ld\+json">(.*?)</script>\n', re.DOTALL)
EVIL = "</script><script>alert(1)</script><!-- &amp;"
# The words of schema.org without asking for them: what is an address is told by hand.
ADDRESSES = ("license", "item", "url", "contentUrl")
WORDS = {"@vocab": "https://schema.org/", **{name: {"@type": "@id"} for name in ADDRESSES}}


def said(page: SitePage) -> dict[str, Any]:
    around = Around(canonical=f"https://x.example/y/{page.address}", name="X", data=DataShown())
    (text,) = BLOCK.findall(linked.element(page, around))
    made: dict[str, Any] = json.loads(text)
    return made


def test_every_page_reads_as_linked_data(demo_pages: list[SitePage]) -> None:
    """By rdflib (BSD-3-Clause), with the words of schema.org."""
    from rdflib import Graph, URIRef
    from rdflib.namespace import RDF

    schema = "https://schema.org/"
    for page in demo_pages[::12]:
        made = said(page)
        assert made["@context"] == "https://schema.org"
        graph = Graph().parse(data=json.dumps({**made, "@context": WORDS}), format="json-ld")
        here = URIRef(f"https://x.example/y/{page.address}")
        assert (here, RDF.type, URIRef(f"{schema}WebPage")) in graph
        assert (here, URIRef(f"{schema}isPartOf"), URIRef("https://x.example/y/")) in graph


def test_a_page_says_what_it_is_about(demo_pages: list[SitePage]) -> None:
    pages = {page.address: page for page in demo_pages}
    strainer = said(pages["assemblies/edge-strainer/"])
    assert strainer["mainEntity"] == {"@type": "Product", "name": "Metal-edge strainer", "mpn": "WH-1180"}
    assert strainer["breadcrumb"]["itemListElement"][-1]["item"].startswith("https://x.example/y/")
    assert said(pages["machines/wexmoor-h/"])["mainEntity"]["manufacturer"]["name"] == "Wexmoor Engine Works"
    assert said(pages["teardowns/hk-592-osk/"])["mainEntity"]["author"]["name"] == "osk"
    assert said(pages["data/"])["mainEntity"]["@type"] == "Dataset"
    # The sheet of an assembly is corrected in its record, but is not about it.
    assert "mainEntity" not in said(pages["assemblies/cartridge-filter/strip-down/"])


def test_a_site_without_an_address_says_nothing(demo_pages: list[SitePage]) -> None:
    assert linked.element(demo_pages[0], Around()) == ""


def test_a_strangers_text_cannot_end_the_block(tmp_path: Path) -> None:
    world = LID.replace("title: Lid", f"title: {json.dumps(EVIL)}")
    register = worlds.check(tmp_path, world).register
    (page,) = (one for one in views.all_pages(Site(Answers(register))) if one.address == "assemblies/lid/")
    made = linked.element(page, Around(canonical="https://x.example/assemblies/lid/"))
    assert made.count("<") == 2
    assert "<!--" not in made
    assert said(page)["name"] == EVIL


def test_every_record_stands_beside_its_page_as_it_was_typed(demo_pages: list[SitePage]) -> None:
    made = record_files.files(demo().answers, plain, None)
    own = {f"{page.address}record.json" for page in demo_pages if page.own_record}
    assert own == set(made)
    for data in made.values():
        found = json.loads(data)
        LAW.validate(found)
        assert of_kind(found["record"]["kind"]).gate.is_valid(found["record"])
    strainer = json.loads(made["assemblies/edge-strainer/record.json"])
    assert strainer["record"]["serials"][0]["last"] == [588, 612]
    (span,) = (one for one in strainer["statements"] if one["address"].endswith("#span-hk"))
    assert span["path"] == "serials/0"


def test_what_stands_beside_a_page_changes_with_its_own_record_alone(tmp_path: Path) -> None:
    def beside(name: str, *world: str) -> dict[str, bytes]:
        return record_files.files(Answers(worlds.check(tmp_path / name, *world).register), plain, None)

    before = beside("before", LID)
    after = beside("after", LID.replace("title: Lid", "title: Hatch"))
    assert set(before) == set(after)
    assert [one for one in after if after[one] != before[one]] == ["assemblies/lid/record.json"]


@pytest.mark.slow
def test_a_page_leads_to_its_record_unless_the_site_leaves_it_out(tmp_path: Path) -> None:
    folder_ = project(tmp_path / "p")
    assert run("build", folder_).exit_code == 0
    page = folder_ / "site/assemblies/lid/index.html"
    assert '<a href="record.json" rel="alternate" type="application/json">' in page.read_text()
    beside = json.loads((page.parent / "record.json").read_text())
    state = json.loads((folder_ / "site" / beside["release"]).read_text())
    STATE.validate(state)
    assert state["called"] == state["state"]  # nobody has released it
    settings = CONFIG.replace("[spanbook]", "[{spanbook: {exports: {records: false}}}]")
    (folder_ / "mkdocs.yml").write_text(f"{settings}site_url: https://x.example/\n")
    assert run("build", folder_).exit_code == 0
    assert "record.json" not in page.read_text()
    assert not (page.parent / "record.json").exists()
    assert len(BLOCK.findall(page.read_text())) == 1
