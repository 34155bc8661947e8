"""What it costs at the least to turn what a position holds into another, whatever that needs elsewhere."""

from __future__ import annotations

import heapq
from collections.abc import Mapping
from itertools import count

from spanbook.answers.steps import Step

Cost = tuple[int, int]  # new parts, steps
Leading = Mapping[str | None, tuple[Step, ...]]  # by assembly, the steps that begin with it


def towards(beyond: Leading, position: str, to: str) -> Leading:
    """Of the steps from an assembly on, those on any way to another, needs aside."""
    near = distances(beyond, position, to)
    return {
        at: tuple(step for step in leading if step.at[position].to in near)
        for at, leading in beyond.items()
        if at in near
    }


def distances(leading: Leading, position: str, to: str) -> dict[str | None, Cost]:
    """What each assembly at a position costs to turn into another where nothing is needed elsewhere.

    What a step does beside what it does at its own position costs nothing: it is paid there.
    """
    backward: dict[str, list[tuple[str | None, Cost]]] = {}
    for at, steps in leading.items():
        for step in steps:
            cost = (step.parts, 1) if step.conversion.position == position else (0, 0)
            backward.setdefault(step.at[position].to, []).append((at, cost))
    found: dict[str | None, Cost] = {}
    ticket = count()
    waiting: list[tuple[Cost, int, str | None]] = [((0, 0), next(ticket), to)]
    while waiting:
        cost, _, at = heapq.heappop(waiting)
        if at not in found:
            found[at] = cost
            for before, one in backward.get(at or "", ()):
                heapq.heappush(waiting, (plus(cost, one), next(ticket), before))
    return found


def plus(one: Cost, other: Cost) -> Cost:
    return one[0] + other[0], one[1] + other[1]
