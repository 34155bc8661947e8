"""Conversions planned in a real browser: the page says what the command says, and copies what it shows."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from spanbook.answers.plans import NoPlan, Plan
from spanbook.outputs.text import convert as text_form
from spanbook.wording.conversions import back_words, plan_words, step_words
from tests.pages.test_browser import opened
from tests.support.demo import demo

REGISTER = demo()


def texts(page: Page, selector: str) -> list[str]:
    return [" ".join(text.split()) for text in page.locator(selector).all_text_contents()]


def planned(chromium: Browser, address: str, *, width: int = 390) -> Page:
    page = opened(chromium, address, width=width)
    page.set_viewport_size({"width": width, "height": 844})
    page.wait_for_selector("[data-plan][data-done]")
    return page


def lines_of(serial: str, plan: Plan | NoPlan) -> list[str]:
    """What the command says, line by line, without what it calls by names that only a command has."""
    said = text_form.as_text(REGISTER.answers, REGISTER.machine(serial), plan).splitlines()
    return [line.strip() for line in said if not line.strip().startswith(("first: ", "also: "))]


@pytest.mark.parametrize("way", ["server", "folder"])
def test_the_page_says_what_the_command_says(
    chromium: Browser, served: str, demo_site: Path, way: str
) -> None:
    root = served + "plan/" if way == "server" else (demo_site / "plan/index.html").as_uri()
    page = planned(chromium, f"{root}?serial=HK+588&want=cartridge-filter")
    plan = REGISTER.convert("HK 588", {"lubrication/oil-filter": "cartridge-filter"})
    assert isinstance(plan, Plan)
    assert page.locator("[data-first]").inner_text() == plan_words(plan)
    first = page.locator("[data-first]").bounding_box()
    assert first
    assert first["y"] + first["height"] < 844
    assert texts(page, "[data-out] > ol > li > strong") == [step_words(step) for step in plan.steps]
    shown = [
        *texts(page, "[data-out] > ol > li > p.sb-quiet"),
        *texts(page, "[data-out] > ol > li > ul > li"),
        *texts(page, "[data-out] > p"),
        page.locator("[data-first]").inner_text(),
    ]
    steps = {f"{number}. {step_words(step)}" for number, step in enumerate(plan.steps, 1)}
    assert set(lines_of("HK 588", plan)) - steps <= set(shown)
    assert back_words(REGISTER, plan) in shown
    assert page.locator("[data-out] .sb-shopping input").count() == sum(
        len(step.conversion.adds) for step in plan.steps
    )
    page.context.close()


def test_what_is_there_and_what_is_wanted_are_chosen_and_stand_in_the_address(
    chromium: Browser, served: str
) -> None:
    page = planned(chromium, f"{served}plan/?serial=HK+588")
    assert page.locator("[data-first]").is_hidden()
    page.select_option("[data-want]", "cartridge-filter")
    expect(page.locator("[data-first]")).to_have_text("2 steps, 12 new parts.")
    page.click("[data-live] details summary")
    # A place inside of what the machine has not is no place to say anything of.
    assert not any("Relief valve" in text for text in page.locator("[data-have] label").all_inner_texts())
    page.locator("[data-have] label", has_text="Oil pump").locator("select").select_option("gear-pump-wide")
    expect(page.locator("[data-first]")).to_have_text("1 step, 8 new parts.")
    assert "have=gear-pump-wide" in page.url
    page.locator("[data-have] label", has_text="Oil pump").locator("select").select_option("")
    assert "unknown=lubrication%2Foil-pump" in page.url
    plan = REGISTER.convert("HK 588", {"lubrication/oil-filter": "cartridge-filter"})
    assert isinstance(plan, Plan)
    again = planned(chromium, page.url)
    assert again.locator("[data-first]").inner_text() == page.locator("[data-first]").inner_text()
    assert "not known" in again.locator("[data-now]").inner_text()
    again.click("[data-wishes] button")
    expect(again.locator("[data-first]")).to_be_hidden()
    again.context.close()
    page.context.close()


@pytest.mark.parametrize("goal", ["latest", "works"])
def test_goals_that_are_ready_made(chromium: Browser, served: str, goal: str) -> None:
    page = planned(chromium, f"{served}plan/?serial=HK+588&have=cartridge-filter&want={goal}")
    holds = {"lubrication/oil-filter": "cartridge-filter"}
    found = REGISTER.convert("HK 588", holds=holds, latest=goal == "latest")
    said = lines_of("HK 588", found)
    assert page.locator("[data-first]").inner_text() == said[0]
    page.context.close()


def test_where_there_is_no_way_the_parts_to_find_are_listed(chromium: Browser, served: str) -> None:
    page = planned(chromium, f"{served}plan/?serial=HK+1500&want=edge-strainer")
    found = REGISTER.convert("HK 1500", {"lubrication/oil-filter": "edge-strainer"})
    assert isinstance(found, NoPlan)
    said = lines_of("HK 1500", found)
    assert page.locator("[data-first]").inner_text() == said[0]
    assert texts(page, "[data-out] > ul > li") == said[-len(found.missing) :]
    page.context.close()


def test_what_is_copied_is_what_is_shown(chromium: Browser, served: str) -> None:
    page = planned(chromium, f"{served}plan/?serial=HK+588&want=cartridge-filter")
    for spelling in ("plain", "markdown", "bbcode"):
        page.click(f"[data-copies] button[value={spelling}]")
        copied = page.locator("[data-copies] textarea").input_value().replace("\\", "")
        for words in (
            *texts(page, "[data-out] li > strong"),
            *texts(page, "[data-out] ol > li > p.sb-quiet"),
            *texts(page, "[data-out] ol ul > li"),
            *texts(page, "[data-out] .sb-shopping li"),
            *texts(page, "[data-out] > p:not(.sb-quiet)"),
            page.locator("[data-first]").inner_text(),
            "plan/?serial=HK+588&want=cartridge-filter",
        ):
            assert words in copied, (spelling, words)
    page.context.close()


def test_a_number_that_is_no_machine_is_told_and_nothing_is_planned(chromium: Browser, served: str) -> None:
    page = planned(chromium, f"{served}plan/?serial=Q+9&want=cartridge-filter")
    assert "Q 9 reads as no serial number known here" in page.locator("[data-machine]").inner_text()
    assert page.locator("[data-live]").is_hidden()
    page.fill("#sb-serial", "hk588")
    page.click(".sb-planning form button")
    expect(page.locator("[data-first]")).to_have_text("2 steps, 12 new parts.")
    page.context.close()


def test_the_card_and_a_conversion_lead_to_the_plan(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+588")
    page.wait_for_selector("[data-card][data-done]")
    page.click("[data-to-plan] a")
    page.wait_for_selector("[data-plan][data-done]")
    assert page.url == f"{served}plan/?serial=HK+588"
    page.goto(f"{served}conversions/cartridge-kit/")
    page.click("text=Plan it on my machine")
    page.wait_for_selector("[data-plan]")
    page.fill("#sb-serial", "HK 588")
    page.click(".sb-planning form button")
    expect(page.locator("[data-first]")).to_have_text("2 steps, 12 new parts.")
    page.context.close()
