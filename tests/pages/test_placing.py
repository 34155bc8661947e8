"""Points placed in the form on the picture itself, as it stands upright: by a tap, a drag, the arrow keys."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest
from PIL import Image
from playwright.sync_api import Browser, Locator, Page

BOX = "e => { const b = e.getBoundingClientRect(); return [b.left, b.top, b.width, b.height]; }"


@pytest.fixture(params=[320, 1280])
def page(chromium: Browser, served: str, request: pytest.FixtureRequest) -> Iterator[Page]:
    context = chromium.new_context(viewport={"width": request.param, "height": 900})
    page = context.new_page()
    page.set_default_timeout(8000)
    page.goto(f"{served}add/assembly/")
    page.wait_for_selector("[data-begun]")
    page.get_by_role("button", name="Add: A figure").click()
    yield page
    context.close()


def sideways() -> bytes:
    """Stored 200 wide and 300 high, to be shown turned: 300 wide and 200 high (EXIF orientation 6)."""
    exif = Image.Exif()
    exif[0x0112] = 6
    out = io.BytesIO()
    Image.new("RGB", (200, 300), (200, 190, 160)).save(out, "JPEG", exif=exif)
    return out.getvalue()


def shown(page: Page) -> Locator:
    """The picture, chosen from the device."""
    chosen = page.locator(".sb-placing input[type=file]")
    chosen.set_input_files({"name": "lid.jpg", "mimeType": "image/jpeg", "buffer": sideways()})
    image = page.locator(".sb-pointed img")
    image.wait_for()
    return image


def at(page: Page, nth: int) -> tuple[int, int]:
    item = page.locator("[data-key=points] [data-item]").nth(nth)
    x, y = (item.locator(f"[data-key={key}] input").input_value() for key in ("x", "y"))
    return int(x), int(y)


def tap(page: Page, image: Locator, across: float, down: float) -> None:
    image.scroll_into_view_if_needed()
    _, _, width, height = image.evaluate(BOX)
    image.click(position={"x": across * width, "y": down * height})


def near(found: tuple[int, int], wanted: tuple[int, int]) -> bool:
    """Within a pixel or two of a small picture."""
    return all(abs(one - other) <= 8 for one, other in zip(found, wanted, strict=True))


def test_a_tap_adds_a_point_where_it_is_in_the_upright_picture(page: Page) -> None:
    image = shown(page)
    _, _, width, height = image.evaluate(BOX)
    assert width > height, "the browser stands it upright"
    tap(page, image, 0.25, 0.75)
    stands = image.evaluate(BOX)
    tap(page, image, 0.9, 0.1)
    assert image.evaluate(BOX) == stands, "the page does not run away under the finger"
    assert near(at(page, 0), (250, 750))
    assert near(at(page, 1), (900, 100))
    assert page.locator(".sb-pointed button").all_inner_texts() == ["1", "2"]


def test_the_arrow_keys_move_a_point_and_never_off_the_picture(page: Page) -> None:
    tap(page, shown(page), 0.5, 0.5)
    before = at(page, 0)
    marker = page.locator(".sb-pointed button")
    assert marker.evaluate("e => e === document.activeElement")
    page.keyboard.press("ArrowRight")
    page.keyboard.press("Shift+ArrowUp")
    assert at(page, 0) == (before[0] + 5, before[1] - 25)
    for _ in range(45):
        page.keyboard.press("Shift+ArrowLeft")
    assert at(page, 0) == (0, before[1] - 25)
    assert "0 across" in (marker.get_attribute("aria-label") or "")


def test_a_point_is_dragged(page: Page) -> None:
    image = shown(page)
    tap(page, image, 0.5, 0.5)
    left, top, width, height = image.evaluate(BOX)
    page.mouse.move(left + width / 2, top + height / 2)
    page.mouse.down()
    page.mouse.move(left + width * 0.2, top + height * 0.3, steps=4)
    page.mouse.up()
    assert near(at(page, 0), (200, 300))


def test_without_a_finger_a_point_begins_in_the_middle_and_goes_by_its_numbers(page: Page) -> None:
    shown(page)
    page.get_by_role("button", name="Add: A point").click()
    page.wait_for_function("document.querySelector('.sb-pointed button:not([hidden])')")
    assert at(page, 0) == (500, 500)
    page.locator("[data-key=points] [data-key=x] input").fill("100")
    assert page.locator(".sb-pointed button").evaluate("e => e.style.left") == "10%"
    page.get_by_role("button", name="Take away: A point").click()
    page.wait_for_function("!document.querySelector('.sb-pointed button')")


def test_a_marker_is_as_large_as_a_finger_needs(page: Page) -> None:
    tap(page, shown(page), 0.5, 0.5)
    _, _, width, height = page.locator(".sb-pointed button").evaluate(BOX)
    assert min(width, height) >= 24


def test_a_record_that_is_corrected_shows_the_sites_own_picture(chromium: Browser, served: str) -> None:
    page = chromium.new_page()
    page.goto(f"{served}add/assembly/?record=edge-strainer")
    page.wait_for_selector("[data-begun]")
    page.wait_for_function("document.querySelector('.sb-pointed button:not([hidden])')")
    source = page.locator(".sb-pointed img").get_attribute("src") or ""
    count = page.locator(".sb-pointed button").count()
    items = page.locator("[data-key=points] [data-item]").count()
    page.close()
    assert source.endswith("drawings/edge-strainer.svg")
    assert count == items >= 5
