"""Supersessions made by hand."""

from __future__ import annotations

from spanbook.answers.orders import Orders
from spanbook.ground.part_numbers import PartKey
from spanbook.register.model import Register
from tests.support.registers import record, register


def key(number: str, by: str = "example-works") -> PartKey:
    return PartKey.of(by, number)


def act(id_: str, old: str, new: str, more: str = "") -> str:
    """An act in short: `a 2, b` are two of a and one of b."""

    def uses(text: str) -> str:
        pairs = [(*use.split(), "1")[:2] for use in text.split(",") if use.strip()]
        return ", ".join(f'{{number: "{n}", quantity: {q}}}' for n, q in pairs)

    return f"kind: supersession\nid: {id_}\nold: [{uses(old)}]\nnew: [{uses(new)}]\n{more}"


def of(*acts: tuple[str, str, str] | tuple[str, str, str, str]) -> Register:
    return register(*(record(act(*a), "supersession", a[0]) for a in acts))


def shown(found: Orders) -> list[str]:
    return [
        ", ".join(f"{leaf.quantity} {leaf.key.number}" for leaf in way.leaves) for way in found.alternatives
    ]
