"""The demonstration, opened once for all tests that only look at it: its records, and what its pages need."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from spanbook import OpenRegister, open_register
from spanbook.ground.language import ENGLISH, speaking
from tests.support.command import PROJECT

if TYPE_CHECKING:
    from spanbook.site.common import Site


@cache
def demo() -> OpenRegister:
    """What one test has asked is known to the next: its titles are in English whoever asks first."""
    with speaking(ENGLISH):
        return open_register(PROJECT)


@cache
def shown() -> Site:
    """Not for who sets how long a page may be: where one is cut is remembered."""
    from spanbook.site.common import Site

    return Site(demo().answers)
