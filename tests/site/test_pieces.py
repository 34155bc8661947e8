"""Pages that grew too long, in pieces: nothing is lost, and whatever an address named is led to."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from html.parser import HTMLParser
from urllib.parse import urldefrag, urljoin

import pytest

from spanbook.site import cutting, views
from spanbook.site.along.machines import pages as of_machine_alone
from spanbook.site.common import Site
from spanbook.site.page import Around, Link, SitePage
from spanbook.site.rows import Group, IndexView, Row, in_pieces, table_in_pieces
from spanbook.site.views import circuit, questions
from tests.support.demo import demo
from tests.support.tries import some, tries

# Headings of what came to have a page of its own, and nothing that anybody says.
HEADINGS = {"breaks", "chart", "assemblies"}
TELEPHONE = 150_000  # bytes that it loads at a time
PRESSED = "flow-"  # what chooses a state is pressed, and stands in no address


class Page(HTMLParser):
    """Where each id of a page leads on to: itself, or the link of the line of a piece that it stands in."""

    def __init__(self, page: SitePage) -> None:
        super().__init__()
        self.leads: dict[str, str] = {}
        self._page = page.address
        self._waiting: list[str] | None = None
        self.feed(page.to_html(Around()))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if "data-piece" in given:
            self._waiting = []
        if id_ := given.get("id"):
            self.leads[id_] = self._page
            if self._waiting is not None:
                self._waiting.append(id_)
        if tag == "a" and self._waiting is not None:
            to = urljoin(f"https://x/{self._page}", given["href"]).removeprefix("https://x/")
            self.leads |= dict.fromkeys(self._waiting, to)

    def handle_endtag(self, tag: str) -> None:
        if tag in ("tr", "li"):
            self._waiting = None


@pytest.fixture(scope="module")
def cut() -> Iterator[dict[str, SitePage]]:
    """The demonstration as if a telephone took no more than a few lines."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cutting, "BOUND", 12_000)
        yield {page.address: page for page in views.all_pages(Site(demo().answers))}


@pytest.mark.slow
def test_whatever_an_address_named_is_led_to(demo_pages: list[SitePage], cut: dict[str, SitePage]) -> None:
    read: dict[str, Page] = {}

    def leads(address: str, anchor: str) -> str | None:
        if address not in read:
            read[address] = Page(cut[address])
        to = read[address].leads.get(anchor)
        return to if to in (None, address) else leads(urldefrag(to or "").url, anchor)

    moved = 0
    changed = [page for page in demo_pages if page != cut[page.address]]  # of the others all is where it was
    # At least one of every sort that has pieces.
    sorts = {page.template: page for page in changed if f"{page.address}~/" in "\n".join(cut)}
    for page in {page.address: page for page in (*sorts.values(), *some(changed))}.values():
        said = (one for one in Page(page).leads.keys() - HEADINGS if not one.startswith(PRESSED))
        for anchor in said:
            there = leads(page.address, anchor)
            assert there, (page.address, anchor)
            moved += there != page.address
    assert moved > tries(300)


def test_no_row_of_a_series_is_lost(demo_pages: list[SitePage], cut: dict[str, SitePage]) -> None:
    series = [page for page in demo_pages if page.template == "views/series.html"]
    long = [page for page in series if cut[page.address].view.places]
    assert len(long) > 2
    for page in long:
        places = [one for address, one in cut.items() if address.startswith(f"{page.address}~/")]
        assert [one.view.table for one in places] == list(page.view.tables)
        breaks = [row.anchor for one in places for row in one.view.breaks]
        assert sorted(breaks) == sorted(row.anchor for row in page.view.breaks)


def test_every_assembly_of_a_position_is_told_on_it_or_on_a_place_of_it(
    demo_pages: list[SitePage], cut: dict[str, SitePage]
) -> None:
    whole = next(page for page in demo_pages if page.address == "positions/lubrication/oil-filter/")
    page = cut[whole.address]
    places = [cut[row.link.address] for row in page.view.places.rows]
    told = {row.link for one in (page, *places) for row in one.view.assemblies}
    assert told == {row.link for row in whole.view.assemblies}
    assert {one.view.chart for one in places} == set(whole.view.charts)
    assert page.view.charts == ()


def test_questions_stand_in_their_order_the_worthiest_on_the_page(
    demo_pages: list[SitePage], cut: dict[str, SitePage]
) -> None:
    whole = next(page for page in demo_pages if page.address == "open-questions/hk/")
    page = cut[whole.address]
    pieces = [cut[row.link.address].view.rows for row in page.view.further.rows]
    assert (*page.view.rows, *(row for rows in pieces for row in rows)) == whole.view.rows
    assert page.view.further.rows[0].link.text.startswith(f"{len(page.view.rows) + 1} to ")
    # What leads to the others takes its room on the page.
    assert len(page.view.rows) < len(pieces[0])


def test_a_group_of_a_list_has_a_piece(demo_pages: list[SitePage], cut: dict[str, SitePage]) -> None:
    whole = next(page for page in demo_pages if page.address == "assemblies/")
    leading = cut["assemblies/"].view.groups[0].rows
    assert [row.anchors for row in leading] == [(group.anchor,) for group in whole.view.groups]
    for row, group in zip(leading, whole.view.groups, strict=True):
        assert cut[row.link.address].view.groups[0].rows == group.rows
        assert row.cells == (str(len(group.rows)),)


def test_of_a_small_community_only_its_longest_circuit_has_pieces(demo_pages: list[SitePage]) -> None:
    pieces = {page.address.partition("~/")[0] for page in demo_pages if "/~/" in page.address}
    assert pieces == {"circuits/oil-type-h/", "rules/"}


@pytest.mark.slow
def test_no_page_of_the_demonstration_is_too_long(demo_pages: list[SitePage]) -> None:
    assert max(len(page.to_html(Around()).encode()) for page in demo_pages) < TELEPHONE


@pytest.mark.slow
def test_the_list_of_very_many_series_has_pieces(
    cut: dict[str, SitePage], monkeypatch: pytest.MonkeyPatch
) -> None:
    """So long that what leads to its series would be too long itself."""
    monkeypatch.setattr(cutting, "BOUND", TELEPHONE)
    page = cut["positions/lubrication/oil-filter/"]
    rows = tuple(
        Row(Link(f"Series {n}", f"series/s{n}/~/lubrication/oil-filter/"), ("Type H", "1 to 9", "2"))
        for n in range(5_000)
    )
    table, pieces = table_in_pieces(page, replace(page.view.places, rows=rows))
    assert [row for piece in pieces for row in piece.view.groups[0].rows] == list(rows)
    assert [row.link.address for row in table.rows] == [piece.address for piece in pieces]
    assert table.rows[0].link.text.startswith("Series 0 to ")
    for made in (*pieces, replace(page, view=replace(page.view, places=table))):
        assert len(made.to_html(Around()).encode()) < TELEPHONE
    assert 5 < len(pieces) < 12
    assert {piece.piece_of for piece in pieces} == {page.address}
    assert table_in_pieces(page, page.view.places) == (page.view.places, [])


@pytest.mark.slow
def test_a_machine_alone_has_its_places_with_it(cut: dict[str, SitePage]) -> None:
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cutting, "BOUND", 12_000)
        taken = set(of_machine_alone(Site(demo().answers), demo().machines["wexmoor-h"]))
    assert {address for address in cut if address.startswith("series/hk/~/")} < taken


@pytest.mark.slow
def test_a_piece_is_told_of_by_the_page_that_leads_to_it(cut: dict[str, SitePage]) -> None:
    address = "series/hk/~/lubrication/oil-filter/"
    around = Around(canonical=f"https://wexmoor.example/{address}")
    permanent = "https://wexmoor.example/series/hk/#lubrication--oil-filter"
    assert cut[address].permanent(around) == permanent
    assert f'Permanent address: <a href="{permanent}">' in cut[address].to_html(around)
    assert cut["series/hk/"].permanent(around) == around.canonical


def test_what_is_counted_is_about_what_a_page_takes(demo_pages: list[SitePage]) -> None:
    answers = demo().answers
    counted = {f"series/{one.id}/": cutting.of_series(answers, one) for one in demo().series.values()}
    for page in demo_pages:
        if page.template == "views/questions.html":
            counted[page.address] = sum(map(questions._size, page.view.rows))
        if page.template == "views/arrangement.html":
            counted[page.address] = circuit._size(page.view.arrangement)
    large = [(page, len(page.to_html(Around()).encode())) for page in demo_pages if page.address in counted]
    shares = [counted[page.address] / size for page, size in large if size > 30_000]
    assert len(shares) > 5
    assert min(shares) > 0.75
    assert max(shares) < 1.3


def test_the_first_piece_leaves_room_for_what_leads_to_the_others() -> None:
    rows = range(1, 9)
    assert cutting.runs(rows, lambda row: cutting.BOUND // 4) == [(1, 2, 3, 4), (5, 6, 7, 8)]
    assert cutting.runs(rows, lambda row: cutting.BOUND // 4, cutting.BOUND // 2) == [
        (1, 2),
        (3, 4, 5, 6),
        (7, 8),
    ]
    assert cutting.runs(rows, lambda row: cutting.BOUND, cutting.BOUND)[:2] == [(1,), (2,)]


def test_another_title_moves_no_more_than_the_pieces_beside_it() -> None:
    def cut(title: str) -> list[SitePage]:
        links = [Link(title if n == 0 else f"Part {n}", f"parts/{n}/") for n in range(4000)]
        rows = tuple(Row(link, ("one", "two")) for link in links)
        view = IndexView("", ("A", "B"), (Group("", None, rows),))
        return list(in_pieces(SitePage("parts/", "Parts", "", "", (), "views/index.html", view)))

    before, after = cut("Part 0"), cut("Another title, " + "longer " * 40)
    assert len(before) > 5
    assert sum(one != other for one, other in zip(before, after, strict=True)) <= 3
