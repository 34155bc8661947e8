"""The ways of a plan: which of as cheap ones are told, and those of positions that were searched apart."""

from __future__ import annotations

import heapq
from collections.abc import Iterable
from dataclasses import dataclass

from spanbook.answers.steps import Step

Way = tuple[Step, ...]
MOST_WAYS = 5


@dataclass(frozen=True, slots=True)
class Ways:
    """The cheapest ways in a stable order; `more` when there may be others as cheap."""

    each: tuple[Way, ...]
    more: bool


def first(ways: Iterable[Way]) -> list[Way]:
    """The first ways of different steps, one more than are told."""
    kept: dict[tuple[str, ...], Way] = {}
    for way in sorted(ways, key=ids_of):
        kept.setdefault(tuple(sorted(ids_of(way))), way)
    return list(kept.values())[: MOST_WAYS + 1]


def together(found: Iterable[Ways]) -> Ways:
    """The ways of positions that were searched apart, as one: whatever is first by its id is done first."""
    told: list[Way] = [()]
    more = False
    for ways in found:
        both = [
            tuple(heapq.merge(one, other, key=lambda step: step.id)) for one in told for other in ways.each
        ]
        told = first(both)
        more = more or ways.more
    return Ways(tuple(told[:MOST_WAYS]), more or len(told) > MOST_WAYS)


def ids_of(way: Way) -> tuple[str, ...]:
    return tuple(step.id for step in way)
