"""A reader's own machine: remembered on the device, spoken of on every page, forgotten by one tap."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect

from spanbook.answers.readings import read_serial
from spanbook.site.scale import Scale
from tests.answers.test_search import REGISTER

WAYS = ["server", "folder"]


@pytest.fixture(params=WAYS)
def site(request: pytest.FixtureRequest, served: str, demo_site: Path) -> str:
    return served if request.param == "server" else f"{demo_site.as_uri()}/"


@pytest.fixture
def reader(chromium: Browser) -> Iterator[BrowserContext]:
    context = chromium.new_context(viewport={"width": 390, "height": 800})
    yield context
    context.close()


def at(reader: BrowserContext, site: str, address: str) -> Page:
    page = reader.new_page()
    page.goto(f"{site}{address}index.html")
    return page


def asked_for(reader: BrowserContext, site: str, serial: str) -> Page:
    """A page on which somebody typed a serial number and went to its card."""
    page = at(reader, site, "")
    page.get_by_role("combobox").fill(serial)
    page.get_by_role("combobox").press("Enter")
    page.wait_for_selector("[data-card] [data-out] .sb-place", state="attached")
    return page


def test_a_number_once_given_is_spoken_of_until_it_is_forgotten(reader: BrowserContext, site: str) -> None:
    page = asked_for(reader, site, "hk588")
    expect(page.locator("[data-mine]")).to_contain_text("My machine: HK 588")
    page = at(reader, site, "assemblies/edge-strainer/")
    bar = page.locator("[data-mine]")
    expect(bar).to_contain_text("Oil filter: Metal-edge strainer")
    bar.locator(".sb-mine-here a").click()
    page.wait_for_selector("[data-done]", state="attached")
    line = page.locator(".sb-place.sb-aimed")
    assert line.inner_text().startswith("Oil filter")
    assert line.get_attribute("open") is not None
    expect(line).to_be_in_viewport()
    page.go_back()
    page.locator("[data-mine] button").click()
    expect(page.locator("[data-mine]")).to_be_hidden()
    assert page.locator(".sb-mine-mark").count() == 0
    expect(at(reader, site, "positions/lubrication/oil-filter/").locator("[data-mine]")).to_be_hidden()


def test_it_is_marked_where_it_stands_on_every_strip(reader: BrowserContext, site: str) -> None:
    """HK 588 of 2140 numbers: in the middle of the 588th of as many equal parts."""
    asked_for(reader, site, "HK 588")
    page = at(reader, site, "positions/lubrication/oil-filter/")
    mark = page.locator(".sb-mine-mark line").first
    expect(mark).to_be_attached()
    assert float((mark.get_attribute("x1") or "").rstrip("%")) == pytest.approx(587.5 / 2140 * 100, abs=0.01)
    marked = page.locator(".sb-chart:has(.sb-mine-mark)")
    assert {one.get_attribute("data-series") for one in marked.all()} == {"hk"}


@pytest.mark.parametrize("serial", ["W6-88A/25", "S6-210/26", "DX.014", "0402M"])
def test_the_mark_stands_where_the_builder_has_the_number(
    reader: BrowserContext, site: str, serial: str
) -> None:
    """Also where numbers begin again: there it stands among those that were issued."""
    (reading,) = (one for one in read_serial(REGISTER, serial) if one.issued)
    scale = Scale.of(REGISTER, reading.series)
    asked_for(reader, site, serial)
    page = at(reader, site, f"series/{reading.series.id}/")
    mark = page.locator(".sb-mine-mark line").first
    expect(mark).to_be_attached()
    wanted = (scale.at(reading.number) + scale.at(reading.number + 1)) / 2
    assert float((mark.get_attribute("x1") or "").rstrip("%")) == pytest.approx(wanted, abs=0.02)


def test_another_machine_is_the_readers_only_when_he_says_so(reader: BrowserContext, site: str) -> None:
    asked_for(reader, site, "HK 588")
    page = asked_for(reader, site, "HK 701")
    expect(page.locator("[data-mine]")).to_contain_text("My machine: HK 588")
    page.get_by_role("button", name="This is my machine").click()
    expect(page.locator("[data-mine]")).to_contain_text("My machine: HK 701")
    expect(page.get_by_role("button", name="This is my machine")).to_be_hidden()


def test_a_link_to_a_card_and_a_worn_number_are_nobodys_own(reader: BrowserContext, site: str) -> None:
    page = reader.new_page()
    page.goto(f"{site}card/index.html?serial=HK+592")
    page.wait_for_selector("[data-done]", state="attached")
    expect(page.locator("[data-mine]")).to_be_hidden()
    page = asked_for(reader, site, "HK 5?8")
    expect(page.locator("[data-mine]")).to_be_hidden()


def test_words_alone_are_answered_for_it_first(reader: BrowserContext, site: str) -> None:
    asked_for(reader, site, "HK 588")
    page = at(reader, site, "")
    page.get_by_role("combobox").fill("oil filter")
    expect(page.get_by_role("option").first).to_contain_text("HK 588: Oil filter")
    page.get_by_role("combobox").fill("HK 701 oil filter")
    expect(page.get_by_role("option").first).to_contain_text("HK 701: Oil filter")


def test_the_sheet_of_a_strip_down_is_for_it(reader: BrowserContext, site: str) -> None:
    asked_for(reader, site, "HK 588")
    page = at(reader, site, "assemblies/edge-strainer/strip-down/")
    expect(page.locator("[data-sheet] [data-for]")).to_contain_text("HK 588")
