"""What am I holding? By taps in a real browser: the answer and the next question in the first screen."""

from __future__ import annotations

from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from spanbook.answers.signs.key import Key, Length, Seen
from spanbook.ground.readings import written
from spanbook.wording.signs import UNRECORDED, likely_words, thing_title
from tests.pages.test_browser import opened
from tests.support.demo import demo

REGISTER = demo()
FILTER = "lubrication/oil-filter"
KEY = REGISTER.key(FILTER)


def texts(page: Page, selector: str) -> list[str]:
    return [" ".join(text.split()) for text in page.locator(selector).all_text_contents()]


def said(key: Key, seen: Seen) -> list[str]:
    """The list of the page, in the words of the command."""
    lines = (likely_words(one, seen) for one in key.told(seen).likely)
    return [line.replace("%:", "%", 1) for line in lines]


def without_stops(lines: list[str]) -> list[str]:
    """The page has the name as a link, without the stop behind it."""
    return [line.replace(".", "") for line in lines]


@pytest.mark.parametrize("way", ["server", "folder"])
def test_taps_lead_to_what_the_command_says(
    chromium: Browser, served: str, demo_site: Path, way: str
) -> None:
    address = f"holding/{FILTER}/"
    page = opened(
        chromium, served + address if way == "server" else (demo_site / address / "index.html").as_uri()
    )
    answers: dict[str, str | None] = {}
    for turn in range(3):
        look = KEY.told(Seen(answers)).looks[0].sign
        assert page.locator("#next").inner_text() == look.asks
        answer = None if turn == 2 else look.answers[0]
        page.locator("[data-next] button").nth(len(look.answers) if answer is None else 0).click()
        answers[look.id] = answer
        wanted = said(KEY, Seen(answers))
        assert without_stops(texts(page, "[data-likely] li")) == without_stops(wanted)
        assert any(UNRECORDED in line for line in wanted)
    first = KEY.told(Seen(answers)).likely[0]
    assert thing_title(first.thing) in page.locator("[data-first]").inner_text()
    page.locator("[data-said] button").nth(1).click()
    del answers[list(answers)[1]]
    assert without_stops(texts(page, "[data-likely] li")) == without_stops(said(KEY, Seen(answers)))
    page.click("[data-again]")
    assert without_stops(texts(page, "[data-likely] li")) == without_stops(said(KEY, Seen({})))
    page.context.close()


@pytest.mark.parametrize(("width", "height"), [(320, 568), (360, 640)])
@pytest.mark.parametrize("query", ["", "?lid-held=four+nuts", "?lid-held=something+else&serial=HK+701"])
def test_the_answer_and_the_next_question_stand_in_the_first_screen(
    chromium: Browser, served: str, width: int, height: int, query: str
) -> None:
    page = opened(chromium, f"{served}holding/{FILTER}/{query}", width=width)
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_selector("[data-next] button")
    feet = [page.locator("[data-next] button").nth(i).bounding_box() for i in (0, 1)]
    answer = page.locator("[data-first]").bounding_box()
    sizes = [one["height"] for one in feet if one]
    lowest = max(one["y"] + one["height"] for one in feet if one)
    wide = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert lowest <= height
    assert min(sizes) >= 24
    assert wide <= width
    if query:
        assert answer
        assert answer["y"] + answer["height"] <= height


def test_a_number_weighs_and_what_cannot_be_told_is_passed_over(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}holding/{FILTER}/?serial=HK+701&lid-held=four+nuts")
    page.wait_for_selector("[data-next] button")
    seen = Seen({"lid-held": "four nuts"}, REGISTER.machine("HK 701"))
    assert without_stops(texts(page, "[data-likely] li")) == without_stops(said(KEY, seen))
    assert page.locator("[data-machine]").inner_text() == "On HK 701."
    looks = [look.sign.asks for look in KEY.told(seen).looks]
    assert page.locator("#next").inner_text() == looks[0]
    page.click(".sb-skip")
    assert page.locator("#next").inner_text() == looks[1]
    assert page.evaluate("document.activeElement.id") == "next"
    assert "lid-held=four+nuts" in page.url
    page.context.close()


FILTERS_PARTS = REGISTER.key(FILTER, parts=True)


@pytest.mark.parametrize("way", ["server", "folder"])
@pytest.mark.parametrize(
    ("address", "key"), [(f"holding/{FILTER}/", KEY), (f"which-part/{FILTER}/", FILTERS_PARTS)]
)
def test_a_size_and_a_half_worn_mark_weigh_as_the_command_says(
    chromium: Browser, served: str, demo_site: Path, way: str, address: str, key: Key
) -> None:
    page = opened(
        chromium, served + address if way == "server" else (demo_site / address / "index.html").as_uri()
    )
    page.fill("#sb-mark", "wh-1l?1")
    page.click("form[data-mark] button")
    page.wait_for_selector("[data-said] button")
    size = page.locator("form[data-size]")
    size.locator("select").select_option("Outside diameter")
    size.locator("input").fill("3 furlongs")
    size.locator("button").click()
    assert "3 furlongs is no size" in size.locator("[role=status]").inner_text()
    size.locator("input").fill("2 3/8 in")
    size.locator("button").click()
    length = Length("Outside diameter", written("2 3/8 in")[0])
    seen = Seen(lengths=[length], marks=["wh-1l?1"])
    assert seen_in(page) == listed(key, seen)
    assert len(key.told(seen).likely) == len(key.things) + 1
    page.goto(page.url)
    page.wait_for_selector("[data-said] button")
    assert seen_in(page) == listed(key, seen)
    page.locator("[data-said] button").nth(0).click()
    assert seen_in(page) == listed(key, Seen(lengths=[length]))
    page.context.close()


def seen_in(page: Page) -> list[str]:
    """The list of the page, what is folded too."""
    return without_stops(texts(page, "[data-likely] li, [data-rest] li"))


def listed(key: Key, seen: Seen) -> list[str]:
    """The first eight and what nobody has recorded, then the rest."""
    likely = key.told(seen).likely
    first = [one for i, one in enumerate(likely) if i < 8 or one.thing is None]
    order = [*first, *(one for one in likely if one not in first)]
    return without_stops([likely_words(one, seen).replace("%:", "%", 1) for one in order])


def test_the_machine_is_weighed_in_beside_what_was_seen(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}holding/{FILTER}/?lid-held=four+nuts")
    page.wait_for_selector("[data-said] button")
    page.fill("#sb-serial", "HK 701")
    page.click("form[data-machine-of] button")
    page.wait_for_selector("[data-machine]:not([hidden])")
    seen = Seen({"lid-held": "four nuts"}, REGISTER.machine("HK 701"))
    assert seen_in(page) == listed(KEY, seen)
    page.context.close()


def test_an_address_with_former_words_is_understood(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}holding/{FILTER}/?lid-fixing=nuts+at+the+corners")
    page.wait_for_selector("[data-said] button")
    assert seen_in(page) == listed(KEY, Seen({"lid-held": "four nuts"}))
    assert page.url.endswith("?lid-held=four+nuts")
    page.context.close()


@pytest.mark.parametrize(
    ("serial", "words"), [("nonsense", "reads as no serial number"), ("DT 500", "On DT 500.")]
)
def test_a_number_that_tells_nothing_is_said_to(
    chromium: Browser, served: str, serial: str, words: str
) -> None:
    page = opened(chromium, f"{served}holding/{FILTER}/?serial={serial.replace(' ', '+')}")
    page.wait_for_selector("[data-next] button")
    assert words in page.locator("[data-machine]").inner_text()
    page.context.close()


def test_it_is_reached_from_the_card_the_position_and_the_finder(chromium: Browser, served: str) -> None:
    page = opened(chromium, f"{served}card/?serial=HK+701")
    page.wait_for_selector("[data-card][data-done]")
    link = page.locator(f"a[href*='holding/{FILTER}/']").first.get_attribute("href")
    assert link
    assert link.endswith("?serial=HK%20701")
    page.goto(f"{served}positions/{FILTER}/")
    assert page.locator(f"main a[href$='holding/{FILTER}/']").count() == 1
    assert page.locator(f"main a[href$='which-part/{FILTER}/']").count() == 1
    page.goto(f"{served}find/?q=what+am+I+holding")
    page.wait_for_selector("a[href*='holding/']")
    assert page.locator(f"a[href*='holding/{FILTER}/']").count() >= 1
    page.context.close()
