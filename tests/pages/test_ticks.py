"""The sheet of a strip-down on a telephone: what was ticked stays ticked, and can be taken back."""

from __future__ import annotations

from playwright.sync_api import Browser, Page

SHEET = "assemblies/cartridge-filter/strip-down/"


def opened(chromium: Browser, served: str) -> Page:
    page = chromium.new_context(viewport={"width": 360, "height": 740}).new_page()
    page.goto(served + SHEET)
    return page


def test_ticks_stay_until_they_are_all_taken_back(chromium: Browser, served: str) -> None:
    page = opened(chromium, served)
    boxes = page.locator(".sb-tick")
    assert boxes.count() == page.locator("[data-ticks] > li").count() == 8
    boxes.nth(0).check()
    boxes.nth(2).check()
    page.reload()
    assert [page.locator(".sb-tick").nth(n).is_checked() for n in range(4)] == [True, False, True, False]
    page.get_by_role("button", name="Untick all steps").click()
    page.reload()
    assert not page.locator(".sb-tick:checked").count()
    page.context.close()


def test_a_box_is_called_by_its_step_and_a_thumb_hits_it(chromium: Browser, served: str) -> None:
    page = opened(chromium, served)
    box = page.get_by_role("checkbox", name="Let the oil out by the plug under the bowl")
    area = box.bounding_box()
    assert area
    assert min(area["width"], area["height"]) >= 24
    page.context.close()


def test_ticks_of_one_sheet_are_not_anothers(chromium: Browser, served: str) -> None:
    page = opened(chromium, served)
    page.locator(".sb-tick").nth(0).check()
    page.goto(served + SHEET.replace("cartridge-filter", "edge-strainer"))
    assert not page.locator(".sb-tick:checked").count()
    page.context.close()
