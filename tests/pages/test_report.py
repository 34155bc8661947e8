"""The report in a real browser, on a telephone: what is told by taps, and what is told of that."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from playwright.sync_api import Page

from spanbook.reading import packets, read_bytes
from spanbook.reading.problems import errors
from spanbook.reading.records import Record, Teardown
from spanbook.rules.checking import check_folder
from tests.conftest import PROJECT
from tests.support.demo import demo
from tests.support.reporting import choose, fill, lacks, opened, packet, photograph, record, snap, spot


@pytest.fixture
def page(telephone: Page) -> Page:
    return telephone


def test_a_packet_is_taken_as_it_left(page: Page, served: str, tmp_path: Path) -> None:
    """Read as `spanbook receive` reads it, laid among the records, and checked as they are."""
    opened(page, served)
    fill(page)
    snap(page, "lubrication--oil-filter", photograph(tmp_path / "IMG_0001.jpg"))
    page.locator("[data-note]").fill("Come and see it.\nAny Sunday.")
    data = packet(page)
    found = packets.read(data, "packet")
    assert (found.site, found.by, found.note) == (
        "Wexmoor launch engines",
        "tolland",
        "Come and see it.\nAny Sunday.",
    )
    path, text = record(data)
    assert path == "teardowns/hk-600-tolland-2026-11-21.yml"
    assert text == (
        "# yaml-language-server: $schema=https://wexmoor.example/schema/teardown.json\n"
        'kind: "teardown"\n'
        'id: "hk-600-tolland-2026-11-21"\n'
        'date: "2026-11-21"\n'
        'seen-by: "tolland"\n'
        'serial: "HK 600"\n'
        'condition: "untouched"\n'
        "found:\n"
        '  - position: "lubrication/oil-filter"\n'
        '    assembly: "cartridge-filter"\n'
        "    photographs:\n"
        '      - file: "hk-600-tolland-2026-11-21/oil-filter-1.jpg"\n'
        '        shows: "Oil filter of HK 600: Full-flow cartridge filter"\n'
        '  - position: "fuel/carburettor"\n'
        '    assembly: "updraught-carburettor"\n'
    )
    shutil.copytree(PROJECT / "content", tmp_path / "content")
    for name, held in found.files.items():
        (tmp_path / "content" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "content" / name).write_bytes(held)
    assert not errors(check_folder(tmp_path / "content").problems)


@pytest.mark.parametrize(
    ("typed", "said", "offered"),
    [
        ("HK 600", "HK 600: Wexmoor Type H launch engine.", []),
        ("hk600", "HK 600: Wexmoor Type H launch engine.", []),
        ("4-70O", "4-70O reads as no serial number known here.", []),
        ("HK 6OO", "HK 6OO reads as no serial number known here.", ["HK 600"]),
        ("600 HK", "600 HK reads as no serial number known here.", ["HK 600"]),
        ("HK 905", "HK 905 was never issued.", []),
        ("HK 5?8", "HK 5?8: one of 10 machines.", []),
    ],
)
def test_a_serial_number_is_read_while_it_is_typed(
    page: Page, served: str, typed: str, said: str, offered: list[str]
) -> None:
    opened(page, served, "")
    page.locator("[data-serial]").press_sequentially(typed)
    page.wait_for_function(
        "(said) => document.querySelector('[data-read]').innerText.includes(said)", arg=said
    )
    assert page.locator("[data-read] button").all_inner_texts() == offered
    if offered:
        assert lacks(page)[0] == "the serial number"
        page.locator("[data-read] button").first.tap()
        page.wait_for_selector("#lubrication--oil-filter")
        assert page.locator("[data-serial]").input_value() == offered[0]
    elif "no serial" in said or "never" in said:
        assert lacks(page)[0] == "the serial number"


def test_what_lacks_is_told_and_leads_to_its_place(page: Page, served: str) -> None:
    opened(page, served)
    assert lacks(page) == [
        "how far the machine is as it left the works",
        "what you found, at one place at least",
        "your name or handle",
    ]
    assert page.locator("[data-ways]").is_hidden()
    page.locator("[data-lacks] button").nth(2).tap()
    assert page.evaluate("document.activeElement.hasAttribute('data-by')")
    fill(page)
    assert lacks(page) == []
    page.locator("[data-date]").fill("2999-01-01")
    assert lacks(page) == ["a day that is not still to come"]
    page.locator("[data-about]").tap()
    page.locator("[data-rough]").fill("about May 2019")
    assert lacks(page) == []
    assert "Read as 2019-05, about then." in page.locator("[data-when]").inner_text()
    assert 'date: "2019-05~"' in record(packet(page))[1]


def test_what_nobody_has_recorded_is_said_in_words(page: Page, served: str) -> None:
    opened(page, served)
    fill(page)
    spot(page, "drive--clutch").locator("[aria-expanded]").tap()
    spot(page, "drive--clutch").get_by_role("button", name="None of these").tap()
    assert lacks(page) == ["what it is: Clutch"]
    spot(page, "drive--clutch").locator("[data-note-words] + input").fill("A dog clutch, home made")
    assert lacks(page) == []
    spot(page, "drive--clutch").get_by_label("A number on it").fill("wh-1181")
    page.wait_for_function(
        "() => document.querySelector('#drive--clutch .sb-say [role]').innerText.startsWith('WH-1181: ')"
    )
    text = record(packet(page))[1]
    assert (
        '  - position: "drive/clutch"\n    parts:\n      - number: "wh-1181"\n'
        '    note: "A dog clutch, home made"\n'
    ) in text
    held = read_bytes(text.encode(), "x.yml", "teardown", "hk-600-tolland-2026-11-21")
    assert isinstance(held, Record)
    assert isinstance(held, Teardown)
    assert [find.assembly for find in held.found][-1] is None


def test_what_is_lacking_is_told_by_the_place_alone_and_a_place_that_is_not_there_as_that(
    page: Page, served: str
) -> None:
    opened(page, served)
    fill(page)
    breather = spot(page, "crankcase--breather")
    breather.locator("[aria-expanded]").tap()
    breather.get_by_role("button", name="None of these").tap()
    assert lacks(page) == ["what it is: Crankcase breather"]
    told = spot(page, "lubrication--oil-filter--relief-valve").inner_text()
    assert "By the records it left the works without such a place." in told
    assert "goes by the number of another plate" in spot(page, "drive--gearbox").inner_text()


def test_who_cannot_tell_names_all_that_it_may_be(page: Page, served: str) -> None:
    opened(page, served)
    fill(page)
    spot(page, "drive--clutch").locator("[aria-expanded]").tap()
    spot(page, "drive--clutch").get_by_role("button", name="I cannot tell which of these").tap()
    text = record(packet(page))[1]
    held = read_bytes(text.encode(), "x.yml", "teardown", "hk-600-tolland-2026-11-21")
    assert isinstance(held, Teardown)
    assert {"cone-clutch", "plate-clutch"} <= set(held.found[-1].one_of)


def test_the_key_is_at_hand_and_leads_back_with_what_was_seen(page: Page, served: str) -> None:
    opened(page, served)
    fill(page)
    spot(page).locator("[aria-expanded]").tap()
    spot(page).get_by_role("link", name="Help me find out").tap()
    page.wait_for_selector("[data-next] button")
    asks = page.locator("#next").inner_text()
    answer = page.locator("[data-next] button").first.inner_text()
    page.locator("[data-next] button").first.tap()
    page.locator("[data-likely] li").first.get_by_role("link", name="It is this").tap()
    page.wait_for_selector("[data-report][data-begun]")
    text = record(packet(page))[1]
    held = read_bytes(text.encode(), "x.yml", "teardown", "hk-600-tolland-2026-11-21")
    assert isinstance(held, Teardown)
    (seen,) = held.found[0].signs
    assert (demo().signs[seen.sign].asks, seen.seen) == (asks, answer)
    assert held.found[0].assembly in demo().assemblies


def test_an_open_question_leads_to_its_place_once_the_number_is_given(page: Page, served: str) -> None:
    page.goto(f"{served}open-questions/hk/")
    page.locator("a[href*='report/?position=']").first.tap()
    page.wait_for_selector("[data-report][data-begun]")
    page.locator("[data-serial]").fill("HK 600")
    page.wait_for_selector(".sb-spot.sb-aimed")
    box = page.locator(".sb-spot.sb-aimed").bounding_box()
    assert box
    assert 0 <= box["y"] < 844


def test_an_address_can_choose_nothing_but_what_is_recorded(page: Page, served: str) -> None:
    """A link may come from anybody."""
    opened(page, served, "?serial=HK+600&position=drive/clutch&is=%3Cimg+src=x%3E")
    assert page.locator("#drive--clutch [aria-pressed=true]").count() == 0
    opened(page, served, "?serial=HK+600&position=drive/clutch&is=cone-clutch")
    assert page.locator("#drive--clutch [aria-pressed=true]").inner_text() == "Cone clutch"


def test_a_suppliers_number_is_the_suppliers(page: Page, served: str) -> None:
    opened(page, served)
    fill(page)
    spot(page, "fuel--carburettor").locator("summary").tap()
    spot(page, "fuel--carburettor").get_by_label("A number on it").fill("8E10")
    page.wait_for_function(
        "() => document.querySelector('#fuel--carburettor .sb-say [role]').innerText.startsWith('8E10: ')"
    )
    assert '      - number: "8E10"\n        by: "solent-carburation"\n' in record(packet(page))[1]


def test_a_worn_number_is_told_of_without_what_is_recorded_of_one(page: Page, served: str) -> None:
    opened(page, served, "?serial=HK+5%3F8")
    page.locator("[data-condition] [value=altered]").tap()
    assert page.locator("[data-choices] button", has_text="As recorded").count() == 0
    choose(page, "lubrication--oil-filter", "Metal-edge strainer")
    page.locator("[data-by]").fill("tolland")
    page.locator("[data-date]").fill("2026-11-21")
    path, text = record(packet(page))
    assert path == "teardowns/hk-5x8-tolland-2026-11-21.yml"
    assert 'serial: "HK 5?8"\n' in text


@pytest.mark.parametrize("width", [320, 390, 1280])
def test_every_answer_is_as_large_as_a_thumb_and_nothing_is_wider_than_the_page(
    page: Page, served: str, width: int
) -> None:
    page.set_viewport_size({"width": width, "height": 844})
    opened(page, served)
    fill(page)
    spot(page).locator("[aria-expanded]").tap()
    spot(page).locator(".sb-say summary").tap()
    boxes = page.locator(".sb-report :is(.sb-taps, .sb-things) :is(button, .sb-tap):visible")
    heights = boxes.evaluate_all("all => all.map((one) => one.getBoundingClientRect().height)")
    assert min(heights) >= 40
    assert page.evaluate("document.documentElement.scrollWidth") <= width
