"""Which way it goes through one machine, asked on its card in a real browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser

from spanbook.wording.flow_here import TOGETHER, here_lines
from spanbook.wording.pieces import plain
from tests.pages.test_browser import opened
from tests.support.demo import demo

REGISTER = demo()


@pytest.mark.parametrize("way", ["server", "folder"])
@pytest.mark.parametrize("serial", ["HK 701", "HK 500", "DT 500"])
def test_the_card_says_which_way_it_goes(
    chromium: Browser, served: str, demo_site: Path, way: str, serial: str
) -> None:
    site = f"{served}card/" if way == "server" else (demo_site / "card/index.html").as_uri()
    page = opened(chromium, f"{site}?serial={serial.replace(' ', '+')}")
    page.click("[data-flow] > summary")
    page.wait_for_selector("[data-flow][data-done]")
    said = [" ".join(text.split()) for text in page.locator("[data-flows] li").all_text_contents()]
    link = page.locator("[data-flows] li a").first.get_attribute("href")
    wide = page.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth")
    page.context.close()
    here = REGISTER.answers.flows_here(REGISTER.machine(serial))
    assert said == [plain(line) for one in here for line in here_lines(one)]
    assert wide <= 0
    assert link
    assert ("index.html#with-" in link) == (way == "folder")


def test_a_machine_without_circuits_is_not_asked_about(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=W6-18/26")
    page.wait_for_selector("[data-card][data-done]")
    assert page.locator("[data-flow]").is_hidden()
    page.context.close()


def test_numbers_that_are_given_together_are_asked_one_by_one(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=0402M+%2F+HK+588")
    page.click("[data-flow] > summary")
    page.wait_for_selector("[data-flow][data-done]")
    assert page.locator("[data-flows]").inner_text() == TOGETHER
    page.context.close()
