"""Long pages in pieces, in a browser: an old address leads to what it named, and each piece can be read."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from spanbook.mkdocs.build import build
from spanbook.site import cutting
from tests.conftest import serving
from tests.support.command import PROJECT
from tests.support.npm import npm

PLACE = "series/hk/~/lubrication/oil-filter/"
PAGES = ["series/hk/", "positions/lubrication/oil-filter/", PLACE, "assemblies/", "open-questions/hk/"]


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration as if a telephone took no more than a few lines; the build holds every link in it."""
    folder = tmp_path_factory.mktemp("cut") / "site"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cutting, "BOUND", 12_000)
        build(PROJECT, folder, strict=True, say=lambda text: None)
    return folder


@pytest.fixture(scope="module")
def here(site: Path) -> Iterator[str]:
    with serving(site) as address:
        yield address


@pytest.mark.parametrize(
    ("address", "there"),
    [
        ("series/hk/#lubrication--oil-filter", PLACE),
        ("series/hk/#lubrication--oil-filter-from-1", PLACE),
        ("series/hk/#break-hk-edge-strainer-waste-packed-filter", PLACE),
        ("assemblies/#lubrication--oil-filter", "assemblies/~/lubrication--oil-filter/"),
    ],
)
def test_an_address_leads_on_to_what_it_named(
    chromium: Browser, here: str, site: Path, address: str, there: str
) -> None:
    page = chromium.new_page()
    anchor = address.partition("#")[2]
    page.goto(here + address)
    page.wait_for_url(f"{here}{there}#{anchor}")
    assert page.locator(f"[id='{anchor}']").count() == 1
    # From a folder on a stick as well, and from one anchor of a page to another.
    start, _, _ = address.partition("#")
    page.goto((site / start / "index.html").as_uri())
    page.evaluate(f"location.hash = '{anchor}'")
    page.wait_for_url(f"file://**/{there}index.html#{anchor}")
    page.close()


def test_without_a_script_it_leads_to_the_line_that_leads_there(chromium: Browser, here: str) -> None:
    context = chromium.new_context(java_script_enabled=False, viewport={"width": 390, "height": 844})
    page = context.new_page()
    page.goto(f"{here}series/hk/#lubrication--oil-filter-from-1")
    line = page.locator("tr", has=page.locator("[id='lubrication--oil-filter-from-1']"))
    link = line.get_by_role("link", name="Oil filter")
    box = link.bounding_box()
    assert box
    assert 0 <= box["y"] < 844
    link.click()
    assert page.url == here + PLACE
    context.close()


@pytest.mark.parametrize("scheme", ["light", "dark"])
@pytest.mark.parametrize("address", PAGES)
def test_axe_finds_nothing(chromium: Browser, here: str, address: str, scheme: str) -> None:
    page = _opened(chromium, here + address, 1280, scheme)
    page.evaluate(npm("axe-core/axe.min.js").read_text(encoding="utf-8"))
    violations = page.evaluate("axe.run(document).then(result => result.violations)")
    told = [(v["id"], [node["html"][:120] for node in v["nodes"][:3]]) for v in violations]
    page.context.close()
    assert told == []


@pytest.mark.parametrize("address", PAGES)
def test_nothing_is_wider_than_a_small_telephone(chromium: Browser, here: str, address: str) -> None:
    page = _opened(chromium, here + address, 360, "light")
    width = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert width <= 360


def test_the_chart_stands_in_the_first_screen_of_a_telephone(telephone: Page, here: str) -> None:
    telephone.goto(here + PLACE)
    box = telephone.locator(".sb-chart").first.bounding_box()
    assert box
    assert box["y"] + box["height"] < 844
    telephone.goto(f"{here}positions/lubrication/oil-filter/")
    first = telephone.locator("td a[href*='/~/']").first
    at = first.bounding_box()
    assert at
    assert at["y"] < 844


def test_a_line_of_a_piece_is_told_of_by_the_address_that_lasts(telephone: Page, here: str) -> None:
    telephone.goto(f"{here}{PLACE}#lubrication--oil-filter-from-1")
    telephone.get_by_role("button", name="plain text").click()
    text = telephone.locator("[data-share] textarea").input_value()
    assert text.splitlines()[2].endswith("/series/hk/#lubrication--oil-filter-from-1")


def test_ones_own_machine_is_told_of_on_a_place(telephone: Page, here: str) -> None:
    telephone.goto(f"{here}{PLACE}")
    telephone.evaluate("SpanbookMine.keep('HK 588')")
    telephone.reload()
    telephone.locator(".sb-mine-mark").first.wait_for(state="attached")
    assert "Oil filter" in telephone.locator(".sb-mine-here").inner_text()


def _opened(chromium: Browser, address: str, width: int, scheme: str) -> Page:
    dark = scheme == "dark"
    context = chromium.new_context(
        viewport={"width": width, "height": 800}, color_scheme="dark" if dark else "light"
    )
    page = context.new_page()
    page.goto(address)
    page.wait_for_load_state("networkidle")
    return page
