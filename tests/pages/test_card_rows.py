"""A card on a telephone: answers in large, pictures of what they name and of nothing else, a bar in reach."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.pages.test_browser import opened

ROWS = """() => [...document.querySelectorAll(".sb-place > summary")].map((row) => {
  const size = (name) => parseFloat(getComputedStyle(row.querySelector(name)).fontSize);
  const { bottom, height } = row.getBoundingClientRect();
  return { seen: bottom < innerHeight, height, larger: size(".sb-short") > size(".sb-where") };
})"""
FILTER, PUMP = "#lubrication--oil-filter", "#lubrication--oil-pump"


def card(chromium: Browser, served: str, serial: str, width: int = 390) -> Page:
    page = opened(chromium, f"{served}card/?serial={serial.replace(' ', '+')}", width=width)
    page.set_viewport_size({"width": width, "height": 844})
    page.wait_for_selector("[data-card][data-done]")
    return page


def test_the_first_screen_has_answers_in_large(chromium: Browser, served: str) -> None:
    page = card(chromium, served, "HK 588")
    rows = page.evaluate(ROWS)
    page.context.close()
    assert sum(row["seen"] for row in rows) >= 9
    assert all(row["larger"] for row in rows)
    assert min(row["height"] for row in rows) >= 43.9


def test_a_row_shows_what_its_answer_names_and_nothing_else(chromium: Browser, served: str) -> None:
    page = card(chromium, served, "HK 588")
    shown = page.locator(f"{PUMP} img.sb-in-row").get_attribute("src")
    assert shown == "../drawings/gear-pump-narrow-svg-160.webp"
    # What may have been put in later is no picture of a place that the machine does not have.
    expect(page.locator(f"{FILTER}--relief-valve .sb-short")).to_have_text("not on this machine")
    assert page.locator(f"{FILTER}--relief-valve img.sb-in-row").count() == 0
    page.context.close()


@pytest.mark.parametrize("width", [390, 1280])
def test_the_groups_and_the_box_stay_in_reach(chromium: Browser, served: str, width: int) -> None:
    page = card(chromium, served, "HK 588", width)
    page.evaluate("scrollTo(0, document.body.scrollHeight / 3)")
    bar = page.locator(".sb-reach").bounding_box()
    assert bar
    assert 0 <= bar["y"] < 120
    page.locator(".sb-reach a", has_text="Fuel").click()
    expect(page.locator("#fuel--fuel-pump")).to_be_in_viewport()
    page.locator(".sb-reach a").last.click()
    expect(page.locator("form[data-finder] input")).to_be_focused()
    page.context.close()


def test_whose_word_it_is_leads_to_the_source(chromium: Browser, served: str) -> None:
    page = card(chromium, served, "HK 588")
    page.click(f"{FILTER} > summary")
    link = page.locator(f"{FILTER} dd a", has_text="p. 31, fig. 12").first
    expect(link).to_have_attribute("href", "../sources/parts-book-1934/")
    expect(page.locator(f"{FILTER} .sb-told-by-eye")).to_contain_text("A knurled knob on the lid")
    page.context.close()
