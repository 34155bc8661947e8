"""What is ordered where it goes by the machine: a part's page asks which, and says what the command says."""

from __future__ import annotations

import random
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from spanbook.answers.listed import listed
from spanbook.answers.orders import Ordering
from spanbook.answers.readings import Reading, machine_of
from spanbook.ground.part_numbers import PartKey
from spanbook.site.common import Site
from spanbook.site.which.tables import goes_by_machine, table
from spanbook.wording import order_here
from tests.pages.test_browser import opened
from tests.support.demo import demo
from tests.support.tries import tries

REGISTER = demo()
SITE = Site(REGISTER.answers)
ASKING = [part for part in REGISTER.parts.values() if goes_by_machine(SITE, part)]
JET = "parts/wexmoor-engine-works/wh-1204/"


def said(machine: Reading, key: PartKey) -> list[str]:
    """The lines of the command for one machine, which is called by no number."""
    lists, judge = listed(REGISTER.answers.ever, key, machine), REGISTER.answers.standing
    ordering = Ordering(REGISTER, machine)
    lines = order_here.lines(
        REGISTER, key, lists, ordering.of, lambda act: judge(act).standing, order_here.THIS
    )
    return [words for _, words in lines]


def test_the_table_of_a_part_says_for_every_machine_what_is_said_of_that_one() -> None:
    rng = random.Random(17)
    assert len(ASKING) > 5
    for part in ASKING:
        made = table(SITE, part)
        for series in REGISTER.series.values():
            numbers = [n for run in series.issued for n in range(run.first, (run.last or run.first + 99) + 1)]
            for number in rng.sample(numbers, min(len(numbers), tries(60))):
                runs = made["series"][series.id]
                (at,) = [at for first, last, at in runs if first <= number <= (last or number)]
                assert made["said"][at] == said(machine_of(REGISTER, series, number), part.key)


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
