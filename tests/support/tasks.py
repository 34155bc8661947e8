"""Fifteen things that a collector comes for, as a hand does them: all that is typed and tapped is counted.

A task begins on the front page with what is typed into the box, and ends where its answer stands. Counted are
the keys, the taps after the query, and the screens that had to be pushed up until the answer was in sight.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from playwright.sync_api import Locator, Page

SIZES = {"telephone": (390, 844), "desk": (1280, 800)}


class Hand:
    """Who does a task on a page that is open."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.keys = 0
        self.taps = 0
        self.screens = 0

    def type(self, query: str) -> None:
        box = self.page.locator("form[data-finder] input")
        box.click()
        self.page.keyboard.type(query)
        self.keys += len(query)
        self.page.wait_for_selector(f'form[data-finder][data-answered="{query}"]')

    def option(self, words: str = "") -> Locator:
        """A line of the box's list, by what it says."""
        return self.page.get_by_role("option").filter(has_text=words).first

    def tap(self, what: Locator) -> None:
        self.scroll_to(what)
        what.click()
        self.taps += 1

    def scroll_to(self, what: Locator) -> Locator:
        """Push the page up by whole screens until it is in sight, as far as it fits on one."""
        what.wait_for()
        for _ in range(40):
            if self._in_sight(what):
                return what
            self.page.evaluate("window.scrollBy({ top: innerHeight * 0.9, behavior: 'instant' })")
            self.screens += 1
        raise AssertionError(f"never in sight: {what}")

    def _in_sight(self, what: Locator) -> bool:
        box = what.bounding_box()
        size = self.page.viewport_size
        assert box
        assert size
        # Its first half has to be there, or as much as half a screen holds.
        return box["y"] >= 0 and box["y"] + min(box["height"], size["height"]) / 2 <= size["height"]


@dataclass(frozen=True, slots=True)
class Task:
    """`does` gives where the answer stands, and `answer` is a part of what it says there."""

    name: str
    does: Callable[[Hand], Locator]
    answer: str
    most_taps: int = 2


def _shown(hand: Hand, place: str) -> Locator:
    """The answer of a position on a card: its shortest, or where it stands open all of it."""
    return hand.page.locator(f"#{place} :is(.sb-short, dd)").locator("visible=true").first


def _which_filter(hand: Hand) -> Locator:
    hand.type("HK 588 oil filter")
    return hand.option("Metal-edge strainer")


def _how_sure(hand: Hand) -> Locator:
    hand.type("HK 588 oil filter")
    hand.tap(hand.option("Metal-edge strainer"))
    hand.page.wait_for_selector("[data-card][data-done]")
    return hand.page.locator("#lubrication--oil-filter dl dd").first


def _machine(hand: Hand) -> Locator:
    hand.type("HK 588")
    hand.tap(hand.option("its machine card"))
    hand.page.wait_for_selector("[data-card][data-done]")
    return _shown(hand, "lubrication--oil-filter")


def _worn_plate(hand: Hand) -> Locator:
    hand.type("HK 213?")
    hand.tap(hand.option("may be any of 10 numbers"))
    hand.page.wait_for_selector("[data-card][data-done]")
    return _shown(hand, "lubrication--oil-filter")


def _order(hand: Hand) -> Locator:
    hand.type("WH-1181")
    hand.tap(hand.option("Strainer pack"))
    return hand.page.get_by_text("Order WH-2241").first


def _worn_number(hand: Hand) -> Locator:
    hand.type("WH 11B1")
    hand.tap(hand.option("if 8 was read as B"))
    return hand.page.get_by_text("Order WH-2241").first


def _mark(hand: Hand) -> Locator:
    hand.type("8E10")
    hand.tap(hand.option())
    return hand.page.locator(".sb-head .sb-answer")


def _found_later(hand: Hand) -> Locator:
    hand.type("HK 701 oil filter")
    hand.tap(hand.option("HK 701: Oil filter"))
    hand.page.wait_for_selector("[data-card][data-done]")
    hand.tap(hand.page.locator("#lubrication--oil-filter .sb-else"))
    found = hand.page.get_by_role("button", name="Full-flow cartridge filter")
    return found.locator("xpath=../following-sibling::ol[1]/li[1]")


def _plan(hand: Hand) -> Locator:
    hand.type("HK 588")
    hand.tap(hand.option("its machine card"))
    hand.page.wait_for_selector("[data-card][data-done]")
    hand.tap(hand.page.locator("[data-to-plan] a"))
    hand.page.wait_for_selector("[data-plan][data-done]")
    return hand.page.locator("[data-plan] select").first


def _tell_apart(hand: Hand) -> Locator:
    hand.type("oil filter")
    hand.tap(hand.option("Position"))
    hand.tap(hand.page.locator('.sb-page a[href*="holding/"]').first)
    return hand.page.locator("#next")


def _one_line(hand: Hand) -> Locator:
    hand.type("HK 588 oil filter")
    hand.tap(hand.option("HK 588: Oil filter"))
    hand.page.wait_for_selector("[data-card][data-done]")
    assert hand.page.url.endswith("card/?serial=HK+588#lubrication--oil-filter"), "its address is the line's"
    return hand.page.locator("#lubrication--oil-filter.sb-aimed summary")


def _report(hand: Hand) -> Locator:
    hand.type("HK 588")
    hand.tap(hand.option("its machine card"))
    hand.page.wait_for_selector("[data-card][data-done]")
    hand.tap(hand.page.locator("[data-add-to]").first)
    hand.page.wait_for_selector("[data-begun]")
    return hand.page.locator("#lubrication--oil-filter")


def _nothing(hand: Hand) -> Locator:
    hand.type("zzqx")
    return hand.option()


def _size(hand: Hand) -> Locator:
    hand.type("17x40x12")
    return hand.option("bearing")


def _comes_apart(hand: Hand) -> Locator:
    hand.type("full-flow strip-down")
    hand.tap(hand.option("Full-flow cartridge filter: strip-down"))
    return hand.page.locator("#do-1")


TASKS = (
    Task("which oil filter a machine has", _which_filter, "Metal-edge strainer"),
    Task("how sure that is, and on whose word", _how_sure, "seen 2008 by brindle"),
    Task("all of one machine", _machine, "Metal-edge strainer"),
    Task("a plate that is half worn away", _worn_plate, "Full-flow cartridge filter"),
    Task("what to order today", _order, "WH-2241"),
    Task("a part number read wrong", _worn_number, "WH-2241"),
    Task("a mark on a casting", _mark, "Carburettor body"),
    Task("a later part was found", _found_later, "It was converted"),
    Task("plan a conversion", _plan, "As it left the works"),
    Task("tell two filters apart", _tell_apart, "How the lid or the bowl is held"),
    Task("a link to one line", _one_line, "Oil filter"),
    Task("tell what was found", _report, "Recorded is one of these"),
    Task("nothing is found", _nothing, "Nothing found"),
    Task("a worn bearing", _size, "6203"),
    Task("how it comes apart", _comes_apart, ""),
)
