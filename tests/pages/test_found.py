"""Something else was found: the card's look-up in a real browser, from a server and from a folder."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from spanbook.reading.records import Condition
from spanbook.wording.grammar import share_of
from spanbook.wording.pieces import plain
from spanbook.wording.stories import assumed_words, ruled_out_words, story_words
from tests.pages.test_browser import opened
from tests.support.demo import demo
from tests.support.npm import npm

FILTER = "lubrication/oil-filter"
REGISTER = demo()


def choose(page: Page, assembly: str, how: str) -> None:
    page.click("[data-found] > summary")
    page.wait_for_selector("[data-where] option:nth-child(2)", state="attached")
    page.select_option("[data-where]", label="Lubrication: Oil filter")
    page.select_option("[data-how]", value=how)
    page.select_option("[data-what]", value=assembly)
    done(page, f"{assembly} {how}")


def done(page: Page, choice: str) -> None:
    """Wait until what is chosen is answered."""
    page.wait_for_function(
        "end => document.querySelector('[data-found]').dataset.done?.endsWith(end)", arg=choice
    )


@pytest.mark.parametrize("way", ["server", "folder"])
@pytest.mark.parametrize(
    ("assembly", "how", "condition"),
    [
        ("edge-strainer", "0", "untouched"),
        ("cartridge-filter", "1", "unknown"),
        ("cartridge-filter", "2", "altered"),
    ],
)
def test_the_card_says_what_the_command_says_of_a_find(
    chromium: Browser, served: str, demo_site: Path, way: str, assembly: str, how: str, condition: Condition
) -> None:
    site = f"{served}card/" if way == "server" else (demo_site / "card/index.html").as_uri()
    page = opened(chromium, f"{site}?serial=HK+701")
    choose(page, assembly, how)
    can, cannot = (page.locator(f"[data-stories] {each} li").all_text_contents() for each in ("ol", "ul"))
    foot = page.locator("[data-stories] > p").last.inner_text()
    link = page.locator("[data-stories] a").first.get_attribute("href")
    page.context.close()
    (one,) = REGISTER.explain("HK 701", {FILTER: assembly}, condition).positions
    assert can == [f"{share_of(s.probability)}: {plain(story_words(s))}" for s in one.possible]
    assert cannot == [ruled_out_words(story) for story in one.impossible]
    assert foot.startswith(assumed_words(REGISTER.answers.assumed, condition))
    assert link
    assert link.endswith("index.html") == (way == "folder")


@pytest.mark.parametrize("serial", ["HK 1310", "0598M"])
def test_a_find_on_a_machine_of_several_numbers_is_looked_up_by_the_one_that_tells(
    chromium: Browser, served: str, serial: str
) -> None:
    page = opened(chromium, f"{served}card/?serial={serial.replace(' ', '+')}")
    choose(page, "cartridge-filter", "1")
    can = page.locator("[data-stories] ol li").all_text_contents()
    page.context.close()
    (one,) = REGISTER.explain(serial, {FILTER: "cartridge-filter"}, "unknown").positions
    assert can == [f"{share_of(s.probability)}: {plain(story_words(s))}" for s in one.possible]


def test_another_choice_takes_the_answer_away_or_changes_it(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+701")
    choose(page, "edge-strainer", "1")
    first = page.locator("[data-stories] ol").inner_text()
    page.select_option("[data-how]", value="0")
    page.wait_for_function(
        "before => document.querySelector('[data-stories] ol').innerText !== before", arg=first
    )
    page.select_option("[data-where]", label="Lubrication: Oil pump")
    done(page, "  0")
    offered = page.locator("[data-what] option").all_inner_texts()
    page.context.close()
    assert offered[0] == "choose"
    assert "Gear oil pump, narrow" in offered


def test_a_line_of_the_card_leads_to_what_may_have_happened_and_into_the_report(
    chromium: Browser, served: str
) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+701")
    page.wait_for_selector("[data-card][data-done]")
    page.locator("#lubrication--oil-filter .sb-else").click()
    page.wait_for_function("() => document.activeElement.hasAttribute('data-what')")
    assert page.locator("[data-where] option:checked").inner_text() == "Lubrication: Oil filter"
    page.select_option("[data-what]", value="cartridge-filter")
    page.get_by_role("link", name="Tell it, with a picture").click()
    page.wait_for_selector("[data-report][data-begun]")
    chosen = page.locator("#lubrication--oil-filter [aria-pressed=true]").inner_text()
    page.context.close()
    assert chosen.endswith("Full-flow cartridge filter")


def test_before_a_choice_the_likeliest_of_each_thing_is_told(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+701")
    page.wait_for_selector("[data-card][data-done]")
    page.locator("#lubrication--oil-filter .sb-else").click()
    done(page, "  1")
    names = page.locator("[data-stories] button").all_inner_texts()
    told = [one.locator("li").all_text_contents() for one in page.locator("[data-stories] ol").all()]
    page.get_by_role("button", name="Full-flow cartridge filter").click()
    done(page, "cartridge-filter 1")
    link = page.locator("[data-stories] a").filter(has_text="Tell it").count()
    page.context.close()
    for name, lines in zip(names, told, strict=True):
        (id_,) = (one.id for one in REGISTER.answers.register.at_position[FILTER] if one.title == name)
        (one,) = REGISTER.explain("HK 701", {FILTER: id_}, "unknown").positions
        assert lines == [f"{share_of(s.probability)}: {plain(story_words(s))}" for s in one.possible[:2]]
    assert len(names) > 1
    assert link == 1


@pytest.mark.parametrize("asked", ["", "?serial=HK+5%3F8", "?serial=nothing", "?serial=HK+905"])
def test_only_of_one_machine_it_is_asked(chromium: Browser, served: str, asked: str) -> None:
    """Not of none, of several that a worn number may be, of what is no number, or of one never issued."""
    page = opened(chromium, f"{served}card/{asked}")
    shown = page.locator("[data-found]").is_visible()
    page.context.close()
    assert not shown


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_it_is_sound_on_a_telephone(chromium: Browser, served: str, scheme: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+701", width=360, scheme=scheme)
    choose(page, "cartridge-filter", "1")
    page.evaluate(npm("axe-core/axe.min.js").read_text(encoding="utf-8"))
    violations = page.evaluate("axe.run(document).then(result => result.violations)")
    told = [(v["id"], [node["html"][:120] for node in v["nodes"][:3]]) for v in violations]
    wide = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert (told, wide) == ([], 360)
