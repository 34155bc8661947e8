"""Figures in a browser: pins that a finger meets and a list that lights up with them, without scripts."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page

PAGES = pytest.mark.parametrize("address", ["assemblies/edge-strainer/", "teardowns/hk-571-merrin/"])
BOXES = "pins => pins.map(p => p.getBoundingClientRect()).map(b => [b.left, b.top, b.right, b.bottom])"


def opened(chromium: Browser, address: str, width: int) -> Page:
    page = chromium.new_context(
        viewport={"width": width, "height": 800}, java_script_enabled=False
    ).new_page()
    page.goto(address)
    return page


@PAGES
@pytest.mark.parametrize("width", [320, 1280])
def test_a_finger_meets_each_pin_and_no_other(
    chromium: Browser, served: str, address: str, width: int
) -> None:
    page = opened(chromium, served + address, width)
    boxes = page.locator(".sb-figure").first.locator(".sb-pin circle").evaluate_all(BOXES)
    page.context.close()
    assert len(boxes) >= 6
    for at, (left, top, right, bottom) in enumerate(boxes):
        assert min(right - left, bottom - top) >= 24
        assert left >= 0
        assert right <= width
        for other in boxes[:at]:
            apart = left >= other[2] or right <= other[0] or top >= other[3] or bottom <= other[1]
            assert apart


@PAGES
def test_a_pin_and_its_line_light_each_other_up(chromium: Browser, served: str, address: str) -> None:
    page = opened(chromium, served + address, 1280)
    figure = page.locator(".sb-figure").first
    pin, line = figure.locator(".sb-pin.sb-n2 circle").first, figure.locator("li.sb-n2")
    other = figure.locator(".sb-pin.sb-n1 circle").first

    def lit() -> tuple[str, str, str]:
        fill = "e => getComputedStyle(e).fill"
        return (
            pin.evaluate(fill),
            line.evaluate("e => getComputedStyle(e).backgroundColor"),
            other.evaluate(fill),
        )

    before = lit()
    line.hover()
    by_line = lit()
    page.mouse.move(0, 0)
    pin.hover()
    by_pin = lit()
    page.mouse.move(0, 0)
    assert lit() == before
    pin.click()
    # The page has moved to the line: whatever lies under the mouse now is not what was tapped.
    page.mouse.move(0, 0)
    tapped = lit()
    page.context.close()
    assert by_line == by_pin == tapped
    assert by_line[0] != before[0]
    assert by_line[1] != before[1]
    assert by_line[2] == before[2]


def test_a_drawing_is_light_on_dark_and_its_file_stands_by_itself(chromium: Browser, served: str) -> None:
    page = chromium.new_context(color_scheme="dark").new_page()
    page.goto(f"{served}assemblies/edge-strainer/")
    page.evaluate("document.body.setAttribute('data-md-color-scheme', 'slate')")
    line = page.locator(".sb-drawing path").first
    assert line.evaluate("e => getComputedStyle(e).stroke") == "rgb(231, 233, 228)"
    page.locator(".sb-mount > a").first.click(position={"x": 100, "y": 4})
    page.wait_for_url("**/drawings/edge-strainer.svg")
    box = page.locator("path").first.bounding_box()
    assert box is not None
    assert box["height"] > 200
    page.context.close()


def test_a_card_shows_what_a_position_tells_of_in_small(chromium: Browser, served: str) -> None:
    page = chromium.new_context(viewport={"width": 360, "height": 740}).new_page()
    page.goto(f"{served}card/?serial=HK+588")
    row = page.locator("details.sb-place", has_text="Oil filter").first
    row.locator("summary").click()
    row.locator(".sb-thumbs").wait_for()
    leads = row.locator(".sb-thumbs a").evaluate_all("all => all.map(a => a.getAttribute('href'))")
    width = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert leads == [
        f"../assemblies/{one}/" for one in ("edge-strainer", "duplex-strainer", "cartridge-filter")
    ]
    assert width <= 360


def test_a_hit_has_a_small_picture_and_its_words_say_all(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.goto(served)
    page.locator("form[data-finder] input").first.fill("edge strainer")
    hit = page.get_by_role("option").filter(has_text="Metal-edge strainer").first
    hit.wait_for()
    source = hit.locator("figure.picture img").get_attribute("src") or ""
    alt = hit.locator("img").get_attribute("alt")
    found = page.request.get(f"{served}{source.removeprefix('./')}").status
    page.close()
    assert source.endswith("drawings/edge-strainer-svg-160.webp")
    assert (alt, found) == ("", 200)
