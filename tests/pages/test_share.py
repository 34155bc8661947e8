"""What is copied to tell others: the page's own words or one statement, and where it can be looked up."""

from __future__ import annotations

import re

import pytest
from playwright.sync_api import Browser, Page

from spanbook.site.page import SitePage
from tests.conftest import PROJECT
from tests.pages.test_browser import opened
from tests.support.command import run

SITE = "https://wexmoor.example/"
PAGES = (
    "assemblies/cartridge-filter/",
    "positions/lubrication/oil-filter/",
    "parts/wexmoor-engine-works/wh-1181/",
    "series/hk/",
    "teardowns/hk-592-osk/",
    "conversions/cartridge-kit/",
)


def copied(page: Page, spelling: str) -> str:
    page.locator(f"[data-share] button[value={spelling}]").click()
    return page.locator("[data-share] textarea").input_value()


@pytest.mark.parametrize("address", PAGES)
def test_a_page_is_told_in_its_own_words(
    chromium: Browser, served: str, demo_pages: list[SitePage], address: str
) -> None:
    (made,) = (one for one in demo_pages if one.address == address)
    page = opened(chromium, served + address)
    title, words, at, state = copied(page, "plain").split("\n")
    markdown, bbcode = copied(page, "markdown"), copied(page, "bbcode")
    cite = copied(page, "cite")
    release = page.locator("[data-release]").get_attribute("data-release")
    page.context.close()
    assert (title, words) == (made.title, " ".join(made.summary.split()))
    assert at == SITE + address
    assert state.startswith("The records as they stood on ")
    assert re.fullmatch(
        re.escape(f"{title}. Wexmoor launch engines. {release}, ") + r"\d{4}-\d\d-\d\d\. " + SITE + address,
        cite,
    )
    assert f"]({SITE}{address})**" in markdown
    assert bbcode == f"[b][url={SITE}{address}]{title}[/url][/b]\n{words}\n[i]{state}[/i]"


def test_one_statement_is_told_with_its_own_address_and_as_the_command_tells_it(
    chromium: Browser, served: str
) -> None:
    address = PAGES[0]
    page = opened(chromium, served + address)
    told = "".join(
        run("ask", serial, "--folder", PROJECT).output for serial in ("HK 1300", "HK 588", "0500M")
    )
    links = page.locator("section[aria-labelledby=machines] tbody .sb-here")
    assert links.count() == 3
    for link in links.all():
        anchor = (link.get_attribute("href") or "")[1:]
        link.click()
        title, words, at, _ = copied(page, "plain").split("\n")
        cells = dict(cell.split(": ", 1) for cell in words.split("; ") if ": " in cell)
        assert title == "Full-flow cartridge filter"
        assert at == f"{SITE}{address}#{anchor}"
        assert "#" not in words
        assert cells["Serial numbers"] in told
        box = page.locator("[data-share]")
        assert box.evaluate("e => e.previousElementSibling.contains(document.querySelector(':target'))")
    page.context.close()


def test_a_line_of_a_series_says_of_which_place_it_is_and_as_the_command_tells_it(
    chromium: Browser, served: str
) -> None:
    told = run("ask", "HK 1", "--folder", PROJECT).output
    page = opened(chromium, f"{served}series/hk/")
    table = page.locator("table[data-of='Oil pump']")
    row = table.locator("tbody tr").first
    row.locator(".sb-here").click()
    title, words, at, _ = copied(page, "plain").split("\n")
    anchor = row.get_attribute("id")
    page.context.close()
    place, numbers, *cells = words.split("; ")
    (had,) = (cell for cell in cells if cell.startswith("What it left the works with: "))
    assert (title, place, at) == (
        "Wexmoor Type H launch engine, HK series",
        "Oil pump",
        f"{SITE}series/hk/#{anchor}",
    )
    assert numbers.startswith("HK 1 ")
    assert had.startswith("What it left the works with: Plunger oil pump (")
    assert "Oil pump" in told
    assert "Plunger oil pump" in told


def test_without_a_statement_in_the_address_the_box_is_at_the_foot(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}{PAGES[0]}#parts")
    at_foot = page.locator(".sb-foot > [data-share]")
    shown = at_foot.is_visible(), at_foot.locator("p").inner_text()
    page.context.close()
    assert shown == (True, "To tell others, copy what stands here as")


def test_what_markdown_would_take_for_its_own_is_escaped(chromium: Browser, served: str) -> None:
    page = opened(chromium, served + PAGES[0])
    page.evaluate("() => { document.querySelector('.sb-answer').textContent = 'a *b* [c] <d> e_f'; }")
    told = copied(page, "markdown")
    page.context.close()
    assert r"a \*b\* \[c\] \<d\> e\_f" in told


def test_a_page_of_no_record_has_no_such_box(chromium: Browser, served: str) -> None:
    for address in ("assemblies/", "card/?serial=HK+588", "glossary/"):
        page = opened(chromium, served + address)
        count = page.locator("[data-share]").count()
        page.context.close()
        assert count == 0, address
