"""One way to compute a thing when it is first asked for, and once."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

K = TypeVar("K")
V = TypeVar("V")


class Memo(dict[K, V]):
    """What a function gives for a key, kept from the first time. The function must always give the same.

    It is a dictionary, so that what is known already is found without a step of our own: half a million
    times in a build.
    """

    __slots__ = ("_compute",)

    def __init__(self, compute: Callable[[K], V]) -> None:
        super().__init__()
        self._compute = compute

    def __missing__(self, key: K) -> V:
        made = self[key] = self._compute(key)
        return made

    __call__ = dict.__getitem__
