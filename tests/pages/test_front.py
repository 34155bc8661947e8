"""The front page shows a machine over its plate, and the machine's page shows it whole."""

from __future__ import annotations

import pytest
from playwright.sync_api import Browser

from tests.pages.test_browser import opened


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_a_machine_stands_over_its_plate(chromium: Browser, served: str, width: int) -> None:
    page = opened(chromium, served, width=width)
    image = page.locator(".sb-brasses img")
    image.scroll_into_view_if_needed()
    page.wait_for_function("document.querySelector('.sb-brasses img').complete")
    made = image.evaluate("(one) => [one.naturalWidth, one.clientWidth, one.alt]")
    wide = page.evaluate("document.documentElement.scrollWidth")
    under = image.locator("xpath=following-sibling::div").inner_text()
    page.context.close()
    assert made[0] > 0
    assert 200 < made[1] <= width
    assert "from the port side" in made[2]
    assert "Wexmoor Type H launch engine" in under
    assert wide <= width


def test_its_page_shows_it_drawn(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}machines/wexmoor-h/")
    drawn = page.locator("figure.sb-figure svg.sb-drawing")
    assert "from the port side" in (drawn.get_attribute("aria-label") or "")
    assert drawn.locator("path").count() == 1  # one stroke
    page.context.close()
