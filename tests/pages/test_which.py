"""What is ordered where it goes by the machine: a part's page asks which, and says what the command says."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from spanbook.ground.part_numbers import PartKey
from spanbook.wording import order_here
from tests.pages.test_browser import opened
from tests.site.test_which import REGISTER, said

JET = "parts/wexmoor-engine-works/wh-1204/"


def asked(chromium: Browser, address: str) -> Page:
    page = opened(chromium, address, width=390)
    page.set_viewport_size({"width": 390, "height": 844})
    return page


@pytest.mark.parametrize("way", ["server", "folder"])
def test_the_page_asks_which_machine_and_answers(
    chromium: Browser, served: str, demo_site: Path, way: str
) -> None:
    page = asked(chromium, served + JET if way == "server" else (demo_site / JET / "index.html").as_uri())
    expect(page.locator(".sb-which strong").first).to_have_text(order_here.ASK)
    for serial in ("HK 600", "HK 1000", "HK 5"):
        page.fill("#sb-serial", serial)
        page.click(".sb-which button")
        first, *rest = said(REGISTER.machine(serial), PartKey.of("wexmoor-engine-works", "WH-1204"))
        expect(page.locator("[data-for] .sb-answer")).to_have_text(f"For {serial}: {first}")
        assert page.locator("[data-for] > p:not(.sb-answer)").all_inner_texts() == rest
    place = page.locator("[data-for] .sb-answer").bounding_box()
    assert place
    assert place["y"] + place["height"] < 844
    page.fill("#sb-serial", "Q 1")
    page.click(".sb-which button")
    expect(page.locator("[data-for]")).to_contain_text("Q 1 reads as no serial number known here")
    page.context.close()


def test_the_readers_own_machine_answers_unasked(chromium: Browser, served: str) -> None:
    page = asked(chromium, f"{served}card/?serial=HK+600")
    page.wait_for_selector("[data-card][data-done]")
    page.click("[data-mine-keep] button")
    page.goto(served + JET)
    expect(page.locator("[data-for] .sb-answer")).to_contain_text("For HK 600: Order WH-1207")
    page.context.close()


def test_a_part_that_is_the_same_for_all_asks_nothing(chromium: Browser, served: str) -> None:
    page = asked(chromium, f"{served}parts/wexmoor-engine-works/wh-1181/")
    assert page.locator(".sb-which").count() == 0
    expect(page.locator(".sb-answer strong").first).to_contain_text("WH-2241 Pack without end discs")
    page.context.close()
