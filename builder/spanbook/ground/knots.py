"""Knots: what leads back to itself by arrows from one thing to another, however long the way."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import TypeVar

K = TypeVar("K")


def knots(arrows: Iterable[tuple[K, K]]) -> Iterator[set[K]]:
    """All that has an arrow, together where each leads to each other, and else alone."""
    onward: defaultdict[K, list[K]] = defaultdict(list)
    back: defaultdict[K, list[K]] = defaultdict(list)
    for one, other in arrows:
        onward[one].append(other)
        back[other].append(one)
    seen: set[K] = set()
    followed = [key for start in onward for key in _followed(start, onward, seen)]
    # Whatever leads to the last is in its knot, or has led to it without a way back and is behind it.
    seen = set()
    return (knot for start in reversed(followed) if (knot := set(_followed(start, back, seen))))


def leads(start: K, end: K, onward: Mapping[K, Sequence[K]]) -> bool:
    """Whether arrows lead from one thing to another, or it is that thing."""
    return end in _followed(start, onward, set())


def _followed(start: K, leads: Mapping[K, Sequence[K]], seen: set[K]) -> Iterator[K]:
    """What a thing leads to that was not seen yet, and itself: each after all that it leads to."""
    if start in seen:
        return
    seen.add(start)
    path = [(start, iter(leads.get(start, ())))]
    while path:
        key, rest = path[-1]
        following = next((one for one in rest if one not in seen), None)
        if following is None:
            path.pop()
            yield key
        else:
            seen.add(following)
            path.append((following, iter(leads.get(following, ()))))
