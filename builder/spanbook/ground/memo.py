"""One way to compute a thing when it is first asked for, and once."""

from __future__ import annotations

from collections.abc import Callable
from typing import Generic, TypeVar

K = TypeVar("K")
V = TypeVar("V")


class Memo(Generic[K, V]):
    """What a function gives for a key, kept from the first time. The function must always give the same."""

    __slots__ = ("_compute", "_kept")

    def __init__(self, compute: Callable[[K], V]) -> None:
        self._compute = compute
        self._kept: dict[K, V] = {}

    def __call__(self, key: K) -> V:
        if key not in self._kept:
            self._kept[key] = self._compute(key)
        return self._kept[key]
