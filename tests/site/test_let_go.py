"""What a page or a card was made from is let go of at once: circles are collected only after a share."""

from __future__ import annotations

import gc
from collections.abc import Callable

import pytest

from spanbook.site import assets, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support.demo import demo
from tests.support.tries import some


def in_circles(make: Callable[[], object]) -> set[str]:
    """The types of all that what is made leaves behind holding on to one another."""
    gc.freeze()  # what was there before is not looked at
    gc.disable()
    gc.set_debug(gc.DEBUG_SAVEALL)
    try:
        make()
        gc.collect()
        return {type(one).__name__ for one in gc.garbage}
    finally:
        gc.set_debug(0)
        gc.garbage.clear()
        gc.enable()


def test_what_holds_on_to_itself_is_found() -> None:
    class Circle:
        def __init__(self) -> None:
            self.itself = self

    assert "Circle" in in_circles(Circle)


@pytest.mark.slow
def test_a_page_is_let_go() -> None:
    """A template's own macro that calls itself, or stands outside of its blocks, would keep all of them."""
    site = Site(demo().answers)

    def print_some() -> None:
        for page in some(views.all_pages(site), lambda page: page.template):
            page.to_html(Around())

    left = in_circles(print_some)
    assert not left & {"SitePage", "Context", "Macro"}


@pytest.mark.slow
def test_a_card_is_let_go() -> None:
    site = Site(demo().answers)
    left = in_circles(lambda: [len(data) for _, data in assets.tables(site, "card")])
    assert not left & {"_Table", "_Series", "Once", "_Ranked"}
