"""The finder's box and the page of results, as a reader types: early, late, unsure, and where nothing is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, Route, expect

WAYS = ["server", "folder"]


@pytest.fixture(params=WAYS)
def front(request: pytest.FixtureRequest, chromium: Browser, served: str, demo_site: Path) -> Iterator[Page]:
    page = chromium.new_page()
    page.goto(served if request.param == "server" else (demo_site / "index.html").as_uri())
    yield page
    page.close()


def test_what_is_typed_before_the_script_has_come_is_answered(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    held: list[Route] = []
    page.route("**/assets/finder/spanbook.js", lambda route: held.append(route))
    page.goto(served, wait_until="commit")
    page.locator("form[data-finder] input").type("HK 588")
    assert page.get_by_role("option").count() == 0
    held[0].continue_()
    expect(page.get_by_role("option").first).to_contain_text("HK 588")
    page.close()


def test_before_the_script_has_come_enter_leads_to_the_results(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.route("**/assets/finder/spanbook.js", lambda route: route.abort(), times=1)
    page.goto(served)
    page.locator("form[data-finder] input").fill("knob turns")
    page.keyboard.press("Enter")
    page.wait_for_url("**/find/?q=knob+turns")
    expect(page.locator(".sb-results a").first).to_contain_text("Metal-edge strainer")
    page.close()


def test_an_emptied_box_forgets_what_it_found(front: Page) -> None:
    box = front.get_by_role("combobox")
    box.fill("HK 588")
    expect(front.get_by_role("option").first).to_be_visible()
    address = front.url
    box.fill("")
    expect(front.get_by_role("listbox", include_hidden=True)).to_be_hidden()
    assert front.get_by_role("option", include_hidden=True).count() == 0
    box.press("Enter")
    front.wait_for_timeout(200)
    assert front.url == address


@pytest.mark.parametrize(
    ("query", "leads"),
    [
        ("HK 588", r"card/(index\.html)?\?serial=HK\+588$"),
        ("wh1181", r"parts/wexmoor-engine-works/wh-1181/(index\.html)?$"),
        ("WH 11B1", r"parts/wexmoor-engine-works/wh-1181/(index\.html)?$"),  # nothing else may be meant
        ("strainer", r"find/(index\.html)?\?q=strainer$"),
        ("WH-1505", r"find/(index\.html)?\?q=WH-1505$"),  # two parts have it
        ("zyzzyva", r"find/(index\.html)?\?q=zyzzyva$"),
    ],
)
def test_enter_goes_where_it_is_clear_what_was_meant(front: Page, query: str, leads: str) -> None:
    box = front.get_by_role("combobox")
    box.fill(query)
    box.press("Enter")
    front.wait_for_url(re.compile(leads))
    expect(front.locator("h1")).to_be_visible()


def test_an_option_that_was_chosen_is_gone_to(front: Page) -> None:
    box = front.get_by_role("combobox")
    box.fill("strainer")
    expect(front.get_by_role("option").nth(1)).to_be_visible()
    box.press("ArrowDown")
    box.press("ArrowDown")
    second = front.get_by_role("option").nth(1).locator("strong").inner_text()
    box.press("Enter")
    front.wait_for_url(re.compile(r"assemblies/|positions/"))
    expect(front.locator("h1")).to_contain_text(second)


@pytest.mark.parametrize(
    ("query", "said"),
    [
        ("HK 588", r"results?\. Enter opens HK 588, Wexmoor Type H launch engine"),
        ("strainer", r"\d+ results; the first is Sump strainer, Position\. Enter lists them all\."),
        ("zyzzyva", r"Nothing found"),
    ],
)
def test_the_list_is_told_in_a_sentence(front: Page, query: str, said: str) -> None:
    front.get_by_role("combobox").fill(query)
    expect(front.locator("form[data-finder] [role=status]")).to_have_text(re.compile(said))


def test_of_several_results_the_last_row_leads_to_all(front: Page) -> None:
    front.get_by_role("combobox").fill("strainer")
    last = front.get_by_role("option").last
    expect(last).to_have_text("All results on one page")
    last.click()
    front.wait_for_url(re.compile(r"find/(index\.html)?\?q=strainer$"))
    front.get_by_role("combobox").fill("zyzzyva")
    expect(front.get_by_role("option")).to_have_count(1)


def test_the_page_of_results_has_more_than_the_list(front: Page, served: str) -> None:
    box = front.get_by_role("combobox")
    box.fill("strainer")
    box.press("Enter")
    front.wait_for_url(re.compile("q=strainer"))
    expect(front.locator("main [role=status]")).to_have_text(re.compile(r"^\d\d results for strainer$"))
    assert front.locator(".sb-results a").count() > 8
    assert front.title().startswith("strainer")
    assert front.get_by_role("combobox").input_value() == "strainer"


def test_where_nothing_stands_its_address_is_looked_for(
    chromium: Browser, served: str, demo_site: Path
) -> None:
    page = chromium.new_page()
    missing = (demo_site / "404.html").read_text()
    # As a host serves it: at whatever address was asked for.
    page.route(
        "**/assemblies/metal-edge/",
        lambda route: route.fulfill(body=missing, status=404, content_type="text/html"),
    )
    page.goto(f"{served}assemblies/metal-edge/")
    first = page.locator(".sb-results a").first
    expect(first).to_contain_text("Metal-edge strainer")
    first.click()
    page.wait_for_url("**/assemblies/edge-strainer/")
    page.close()


def test_without_a_connection_the_box_says_so_and_asks_again(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.goto(served)
    page.route("**/assets/finder/series.js*", lambda route: route.abort())
    box = page.get_by_role("combobox")
    box.fill("HK 588")
    expect(page.locator("form[data-finder] [role=status]")).to_contain_text("could not be loaded")
    page.unroute("**/assets/finder/series.js*")
    box.fill("HK 589")
    expect(page.get_by_role("option").first).to_contain_text("HK 589")
    page.close()
