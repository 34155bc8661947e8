"""The sheet of a strip-down for a reader's machine, and all that is renewed on it, in a real browser."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from spanbook.site.sheet.words import sheet_words
from spanbook.wording.renewing import EVERYTHING, for_words, renewed_words, silent_words
from tests.pages.test_browser import opened
from tests.support.demo import demo

REGISTER = demo()
SHEET = "assemblies/{}/strip-down/"


def texts(page: Page, selector: str) -> list[str]:
    return [" ".join(text.split()) for text in page.locator(selector).all_text_contents()]


def of_machine(chromium: Browser, at: str, serial: str) -> Page:
    page = opened(chromium, f"{at}?serial={serial.replace(' ', '+')}")
    page.wait_for_selector("[data-sheet][data-done]")
    return page


@pytest.mark.parametrize("way", ["server", "folder"])
@pytest.mark.parametrize(
    ("assembly", "serial"),
    [("waste-packed-filter", "HK 870"), ("edge-strainer", "HK 233"), ("cartridge-filter", "HK 640")],
)
def test_the_page_has_the_sheet_of_the_machine_that_is_typed(
    chromium: Browser, served: str, demo_site: Path, way: str, assembly: str, serial: str
) -> None:
    address = SHEET.format(assembly)
    page = of_machine(
        chromium,
        served + address if way == "server" else (demo_site / address / "index.html").as_uri(),
        serial,
    )
    steps = [texts(page, f"#step-{at + 1} > ul > li") for at in range(page.locator(".sb-steps > li").count())]
    rest, renew, tray = (texts(page, f"[data-{name}] > *") for name in ("rest", "renew", "tray"))
    said = page.locator("[data-for]").inner_text()
    page.context.close()
    machine, sheet = REGISTER.machine(serial), REGISTER.strip(assembly, serial)
    assert sheet
    words = sheet_words(REGISTER, sheet)
    assert steps == [list(step.lines) for step in words.steps]
    assert (rest, renew, tray) == (list(words.rest), [one.text for one in words.renew], list(words.tray))
    assert said == for_words(machine.shown, REGISTER.answers.may_hold(sheet.assembly, machine))


@pytest.mark.parametrize(
    ("serial", "said"),
    [
        ("HK 905", "was never issued"),
        ("nonsense", "reads as no serial number"),
        ("HK 5?8", "may be several machines"),
        ("DX 14", "no record puts it on a machine of that series"),
    ],
)
def test_of_what_is_no_machine_the_sheet_of_any_is_left(
    chromium: Browser, served: str, serial: str, said: str
) -> None:
    page = opened(chromium, served + SHEET.format("cartridge-filter"))
    before = texts(page, ".sb-strip-down li")
    page.fill("#sb-serial", serial)
    page.click("text=Show its sheet")
    page.wait_for_selector("[data-sheet][data-done]")
    assert said in page.locator("[data-for]").inner_text()
    assert texts(page, ".sb-strip-down li") == before
    page.context.close()


def test_ticks_of_two_machines_are_kept_apart(chromium: Browser, served: str) -> None:
    page = of_machine(chromium, served + SHEET.format("cartridge-filter"), "HK 640")
    page.locator(".sb-tick").first.check()
    page.goto(served + SHEET.format("cartridge-filter") + "?serial=HK+1312")
    assert not page.locator(".sb-tick:checked").count()
    page.goto(served + SHEET.format("cartridge-filter") + "?serial=HK+640")
    assert page.locator(".sb-tick:checked").count() == 1
    page.context.close()


@pytest.mark.parametrize("serial", ["HK 588", "HK 1240", "0402M"])
def test_the_card_has_all_that_is_renewed_as_the_command_has_it(
    chromium: Browser, served: str, serial: str
) -> None:
    page = opened(chromium, f"{served}card/?serial={serial.replace(' ', '+')}")
    page.click(f"text={EVERYTHING}")
    page.wait_for_selector("[data-renew][data-done]")
    lines = texts(page, "[data-renewals] li")
    silent = texts(page, "[data-renewals] > p")
    link = page.locator("[data-renewals] a").first.get_attribute("href") or ""
    page.context.close()
    holdings = REGISTER.renewing(serial)
    sheets = [held.sheet for one in holdings for held in one.held if held.sheet]
    assert lines == [line for sheet in sheets for line in renewed_words(REGISTER, sheet)]
    assert silent == list(silent_words(REGISTER, holdings))
    assert f"{SHEET.format(sheets[0].assembly.id)}?serial=" in link


def test_the_card_of_numbers_given_together_asks_for_one(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=0402M+%2F+HK+588")
    page.click(f"text={EVERYTHING}")
    page.wait_for_selector("[data-renewals] > p")
    assert "one number at a time" in page.locator("[data-renewals]").inner_text()
    page.context.close()
