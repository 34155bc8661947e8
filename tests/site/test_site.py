"""Pages as data and as HTML, without a browser."""

from __future__ import annotations

import re
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import urldefrag, urljoin

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits
from spanbook.ground.memo import Memo
from spanbook.site import cutting, markdown, views
from spanbook.site.charts import letters, segment_bars
from spanbook.site.common import Site
from spanbook.site.page import Around, SitePage
from spanbook.site.rows import size
from spanbook.site.scale import Scale
from spanbook.site.views import index
from spanbook.wording.spans import span_words
from tests.support import worlds
from tests.support.demo import demo, shown
from tests.support.rows import each_row
from tests.support.tries import some

PROJECT = Path(__file__).parents[2]
HOSTILE = '<script>alert(1)</script>"><img src=x onerror=alert(2)>&amp;'
WORLD = f"""\
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: '{HOSTILE}'
position: body/cover
serials:
- {{series: xa, first: 1, last: [20, 30], note: '{HOSTILE}', evidence: [{{source: book, at: '{HOSTILE}'}}]}}
tell: ['{HOSTILE}']
parts:
- {{number: '{HOSTILE[:25]}', name: '{HOSTILE}', quantity: 1}}
notes: '{HOSTILE}'
"""


class Links(HTMLParser):
    """Every id and every link of a page."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.ids: list[str] = []
        self.links: list[str] = []
        self.tags: set[str] = set()
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        for name, value in attrs:
            if name == "id" and value:
                self.ids.append(value)
            if name == "href" and value:
                self.links.append(value)


def test_every_page_has_its_own_address(demo_pages: list[SitePage]) -> None:
    addresses = [page.address for page in demo_pages]
    assert len(addresses) == len(set(addresses)) == len({a.casefold() for a in addresses})
    assert all(address.endswith("/") for address in addresses)


def test_every_link_between_pages_leads_to_a_page_and_an_anchor(demo_pages: list[SitePage]) -> None:
    around = Around(help_address="how-to-read-a-page/")
    pages = {page.address: page for page in demo_pages}
    ids = Memo[str, set[str]](
        lambda address: set(re.findall(r' id="([^"]+)"', pages[address].to_html(around)))
    )
    guides = {"", "how-to-read-a-page/"}
    for address in (page.address for page in some(demo_pages, lambda page: page.template)):
        found = Links(pages[address].to_html(around))
        assert len(found.ids) == len(set(found.ids)), address
        for link in found.links:
            if link.startswith("http"):
                continue
            target, anchor = urldefrag(urljoin(f"https://x/{address}", link).removeprefix("https://x/"))
            target = target.partition("?")[0]
            assert target in pages or target in guides, (address, link)
            if anchor:
                assert anchor in ids(target), (address, link)


def test_every_page_says_what_it_is_in_a_line(demo_pages: list[SitePage]) -> None:
    assert all(page.title and page.summary and "\n" not in page.summary for page in demo_pages)


def test_a_long_list_comes_in_pieces_that_hold_every_row_once(
    demo_pages: list[SitePage], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cutting, "BOUND", 5_000)
    site = Site(demo().answers)
    whole = next(page for page in demo_pages if page.address == "parts/wexmoor-engine-works/")
    made = {page.address: page for page in index.pages(site)}
    hub = made[whole.address].view.groups[0].rows
    assert [row.link.address for row in hub] == [f"{whole.address}~/{i}/" for i in range(1, len(hub) + 1)]
    pieces = [made[row.link.address].view.groups[0].rows for row in hub]
    assert [row for piece in pieces for row in piece] == list(whole.view.groups[0].rows)
    assert [row.cells for row in hub] == [(str(len(piece)),) for piece in pieces]
    assert len(pieces) > 5
    assert all(sum(map(size, piece)) <= 5_000 for piece in pieces)
    assert "../../../../parts/wexmoor-engine-works/" in made[hub[1].link.address].to_html(Around())


# What a template has of its own: scripts that no other page needs, a place for the picture pointed at.
OURS = {
    "views/along.html": {"script"},
    "views/form.html": {"script"},
    "views/card.html": {"script"},
    "views/strip_down.html": {"script"},
    "views/holding.html": {"script"},
    "views/plan.html": {"script"},
    "views/report.html": {"script"},
}


@pytest.mark.slow
def test_a_strangers_text_stays_text(tmp_path: Path) -> None:
    register = worlds.check(tmp_path, WORLD).register
    for page in views.all_pages(Site(Answers(register))):
        found = Links(page.to_html(Around()))
        ours = OURS.get(page.template, set())
        assert not found.tags & {"script", "img", "b"} - ours, page.address


def test_a_caution_that_is_declined_is_shown_with_the_reason(tmp_path: Path) -> None:
    declined = "declined:\n- {caution: used-oil, why: The chamber is dry}\n"
    more = "- {number: P-1, name: Sump plug}\n" + declined
    record = "# file: content/parts/plug.yml\nkind: part\nid: plug\nnumber: P-1\nname: Sump plug\n" + declined
    kit = "# file: content/conversions/kit.yml\nkind: conversion\nid: kit\ntitle: Sump kit\n"
    spans = "position: body/cover\nfrom: [lid]\nto: hat\nserials:\n- {series: xa, first: 1, last: 9}\n"
    lid = WORLD.replace(HOSTILE, "Sump").split("parts:")[0] + "parts:\n" + more
    hat = lid.replace("lid", "hat").replace(declined, "cautions: [used-oil]\n")
    register = worlds.check(tmp_path, lid, hat, record, kit + spans + declined).register
    pages = {page.address: page for page in views.all_pages(Site(Answers(register)))}
    said = "this caution does not apply here. Why: The chamber is dry"
    for address in ("assemblies/lid/", "conversions/kit/", "parts/example-works/p-1/"):
        html = pages[address].to_html(Around())
        assert f'cautions/#used-oil">Used oil</a>: the record says that {said}' in html
        assert "Wear gloves" not in html
        assert "licensed for the work come first" in html
    html = pages["assemblies/hat/"].to_html(Around())
    assert "Wear gloves" in html
    assert said not in html


@each_row(
    ("notes", "html"),
    [
        ("a [page](/series/hk/)", '<p>a <a href="../series/hk/" rel="noopener nofollow">page</a></p>'),
        ("[x](https://e.org/?a=1)", '<p><a href="https://e.org/?a=1" rel="noopener nofollow">x</a></p>'),
        ("[x](//e.org/)", '<p><a href="" rel="noopener nofollow">x</a></p>'),
        ("[x](ftp://e.org/)", '<p><a href="" rel="noopener nofollow">x</a></p>'),
        ("<b onclick=x>", "<p>&lt;b onclick=x&gt;</p>"),
        ("# Head", "<h3>Head</h3>"),
        ("![x](https://e.org/x.png)", '<p>!<a href="https://e.org/x.png" rel="noopener nofollow">x</a></p>'),
    ],
)
def test_notes_become_safe_html(notes: str, html: str) -> None:
    assert markdown.to_html(notes, "../").strip() == html


@pytest.mark.parametrize(
    "notes",
    ["[x](javascript:alert(1))", "[x](data:text/html,x)", "<javascript:alert(1)>", "[x](JaVaScRiPt:x)"],
)
def test_links_that_run_something_lose_their_address(notes: str) -> None:
    assert re.search(r'href="\s*(?:javascript|data)', markdown.to_html(notes, ""), re.IGNORECASE) is None


def test_spans_in_words() -> None:
    register = demo()
    words = [
        span_words(span, register.series[span.series])
        for id_ in ("edge-strainer", "horn-carburettor", "d-gear-pump")
        for span in register.assemblies[id_].serials
    ]
    assert words == [
        "from HK 1 to somewhere between HK 588 and HK 612",
        "from 0001M to somewhere between 0096M and 0110M",
        "from somewhere between HK 1299 and HK 1321 to the end, HK 2140",
        "from HK 1100 to HK 1320",
        "from DT 101 to the end, DT 940",
        "from DX.001 to a number not known",
    ]


def test_a_strip_covers_its_series_from_end_to_end() -> None:
    register = demo()
    for series in register.series.values():
        scale = Scale.of(register, series)
        for position in register.at_position:
            found = Fits(register).segments(series, position)
            bars = segment_bars(scale, found)
            assert bars[0].x == pytest.approx(0, abs=0.01)
            assert bars[-1].x + bars[-1].width == pytest.approx(100, abs=0.02)
            assert set("".join(bar.letter for bar in bars)) <= set("".join(letters(found).values()) + "·?")


def test_a_page_made_alone_is_the_one_that_is_made_among_all(demo_pages: list[SitePage]) -> None:
    site = shown()
    tried = {page.address: page for page in some(demo_pages, lambda page: page.template)}
    alone = {address: views.page_at(site, address) for address in tried}
    assert {page.template for page in tried.values() if alone[page.address]} >= {
        f"views/{name}.html"
        for name in ("machine", "series", "position", "assembly", "part", "supersession", "conversion")
    } | {f"views/{name}.html" for name in ("source", "teardown", "unit", "circuit", "holding")}
    for page in tried.values():
        assert alone[page.address] in (None, page)
    assert views.page_at(site, "assemblies/of-nobody/") is None
