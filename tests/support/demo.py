"""The demonstration's records, read once for all tests that only look at them."""

from __future__ import annotations

from functools import cache

from spanbook import OpenRegister, open_register
from spanbook.register.model import Register
from spanbook.rules.checking import check_folder
from tests.support.command import PROJECT


@cache
def demo() -> Register:
    """As `check` reads it."""
    return check_folder(PROJECT).register


@cache
def opened() -> OpenRegister:
    """As Python opens it; what one test has asked is known to the next."""
    return open_register(PROJECT)
