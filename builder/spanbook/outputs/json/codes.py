"""How the published forms write the names of what is counted up."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from spanbook.answers.condition import Machines
from spanbook.answers.orders import Alternative, Leaf, Supply


def published(name: StrEnum) -> str:
    """A name as the schemas of answers list it: they were published with spaces where ours has hyphens."""
    return name.replace("-", " ")


def runs(machines: Machines) -> list[dict[str, Any]]:
    """Runs of numbers, those that are surely meant and those that only may be."""
    return [
        {"series": series, "first": span.first, "last": span.last, "surely": surely}
        for series, reach in machines.runs
        for numbers, surely in ((reach.surely, True), (reach.possibly - reach.surely, False))
        for span in numbers
    ]


def ordering_of(way: Alternative, leaf: Leaf) -> dict[str, str]:
    """What ordering a number comes to, and whether the way to order that it is part of applies."""
    ending, applies = published(leaf.supply), str(way.grounds.applies)
    return {"supplied": supplied(leaf), "ending": ending, "applies": applies}


def supplied(leaf: Leaf) -> str:
    """Whether a number of an order is supplied: yes, no or unknown."""
    return {Supply.SUPPLIED: "yes", Supply.GIVEN_UP: "no"}.get(leaf.supply, "unknown")
