"""How many worlds to draw, or examples to try: all, or what the everyday command takes of them."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TypeVar

from hypothesis import settings

T = TypeVar("T")


def tries(number: int) -> int:
    """Of a hundred as many as this run's profile (tests/conftest.py) tries of any property; at least one."""
    return max(1, number * settings().max_examples // 100)


def some(alike: Iterable[T]) -> list[T]:
    """Of many that are looked at alike as large a share, from the first to the last; the whole run all."""
    every = list(alike)
    return every[:: max(1, 100 // settings().max_examples)]
