"""What a page or a card was made from is let go of at once: circles are collected only after a share."""

from __future__ import annotations

import gc
from collections.abc import Callable

from spanbook.site import assets, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.support.demo import demo


def in_circles(make: Callable[[], object]) -> set[str]:
    """The types of all that what is made leaves behind holding on to one another."""
    gc.collect()
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


def test_a_page_is_let_go() -> None:
    """A template's own macro that calls itself, or stands outside of its blocks, would keep all of them."""
    site = Site(demo().answers)
    left = in_circles(lambda: [len(page.to_html(Around())) for page in views.all_pages(site)])
    assert not left & {"SitePage", "Context", "Macro"}


def test_a_card_is_let_go() -> None:
    site = Site(demo().answers)
    left = in_circles(lambda: [len(data) for _, data in assets.tables(site, "card")])
    assert not left & {"_Table", "_Series", "Once", "_Ranked"}
