"""How the published forms write the names of what is counted up."""

from __future__ import annotations

from enum import StrEnum

from spanbook.answers.orders import Leaf, Supply


def published(name: StrEnum) -> str:
    """A name as the schemas of answers list it: they were published with spaces where ours has hyphens."""
    return name.replace("-", " ")


def supplied(leaf: Leaf) -> str:
    """Whether a number of an order is supplied: yes, no or unknown."""
    return {Supply.SUPPLIED: "yes", Supply.GIVEN_UP: "no"}.get(leaf.supply, "unknown")
