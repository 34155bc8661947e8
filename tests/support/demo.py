"""The demonstration's records, opened once for all tests that only look at them."""

from __future__ import annotations

from functools import cache

from spanbook import OpenRegister, open_register
from spanbook.ground.language import ENGLISH, speaking
from tests.support.command import PROJECT


@cache
def demo() -> OpenRegister:
    """What one test has asked is known to the next: its titles are in English whoever asks first."""
    with speaking(ENGLISH):
        return open_register(PROJECT)
