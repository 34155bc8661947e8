"""A circuit on paper: each arrangement on a sheet of its own, in the state that is chosen."""

from __future__ import annotations

import subprocess
from pathlib import Path

from playwright.sync_api import Browser, Page

from tests.pages.test_browser import opened


def test_each_arrangement_has_a_sheet_of_its_own(chromium: Browser, served: str, tmp_path: Path) -> None:
    page = opened(chromium, f"{served}circuits/water-type-h/")
    headings = [
        heading.inner_text()
        for heading in page.locator(".sb-arrangement:has(.sb-flow) h2").all()
        if heading.is_visible()
    ]
    sheets = [" ".join(sheet.split()) for sheet in printed(page, tmp_path).split("\f")]
    assert len(headings) >= 5
    for heading in headings:
        assert sum(sheet.startswith(heading) for sheet in sheets) == 1, heading


def test_what_cannot_be_pressed_is_no_use_on_paper(chromium: Browser, served: str, tmp_path: Path) -> None:
    page = opened(chromium, f"{served}circuits/oil-type-h/~/3/")
    assert "Cold start" in page.locator(".sb-flow").inner_text()
    text = printed(page, tmp_path)
    assert "Running warm" in text
    assert "Cold start" not in text


def printed(page: Page, folder: Path) -> str:
    """What stands on paper, sheet by sheet."""
    paper = folder / "page.pdf"
    page.pdf(path=str(paper), format="A4")
    page.context.close()
    text = subprocess.run(["pdftotext", "-layout", paper, "-"], capture_output=True, text=True, check=True)
    return text.stdout


def test_what_is_held_prints_with_its_title_and_no_buttons(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}holding/lubrication/oil-filter/?lid-held=four+nuts")
    page.wait_for_selector("[data-next] button")
    assert page.locator(".sb-head").bounding_box()["height"] < 2  # type: ignore[index]
    page.emulate_media(media="print")
    assert page.locator(".sb-head").bounding_box()["height"] > 20  # type: ignore[index]
    assert page.locator("[data-next]").is_hidden()
    assert page.locator("[data-again]").is_hidden()
    assert page.locator("[data-likely] li").first.is_visible()
    page.context.close()
