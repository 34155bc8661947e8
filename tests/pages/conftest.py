"""A telephone: a small page that is touched, of which no script may break."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page


@pytest.fixture
def telephone(chromium: Browser) -> Iterator[Page]:
    context = chromium.new_context(
        viewport={"width": 390, "height": 844}, has_touch=True, is_mobile=True, accept_downloads=True
    )
    page = context.new_page()
    page.set_default_timeout(15000)
    broken: list[str] = []
    page.on("pageerror", lambda error: broken.append(str(error)))
    yield page
    context.close()
    assert broken == []
