"""How many worlds to draw, or examples to try: all, or what the everyday command takes of them."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from typing import TypeVar

from hypothesis import settings

T = TypeVar("T")


def tries(number: int) -> int:
    """Of a hundred as many as this run's profile (tests/conftest.py) tries of any property; at least one."""
    return max(1, number * settings().max_examples // 100)


def some(alike: Iterable[T], sort: Callable[[T], Hashable] | None = None) -> list[T]:
    """Of many that are looked at alike as large a share, from the first to the last; the whole run all.

    And one at the least of every `sort`.
    """
    every = list(alike)
    step = max(1, 100 // settings().max_examples)
    of_each = {sort(one): one for one in every}.values() if sort and step > 1 else ()
    return [*of_each, *every[::step]]
