"""What to order as a JSON object; `schema/answer-order.json` is its law."""

from __future__ import annotations

from typing import Any

from spanbook.answers.orders import Orders
from spanbook.answers.supersession import Need, Step
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json.codes import published
from spanbook.register.model import Register
from spanbook.wording.orders import DROPPED

Object = dict[str, Any]


def as_object(register: Register, query: str, serial: str | None, need: Need, found: Orders) -> Object:
    """The tree, and every complete alternative as a flat list of leaves."""
    return {
        "query": query,
        "kind": "order",
        **_part(register, need.key),
        "quantity": need.quantity,
        "serial": serial,
        "alternatives": [
            {
                "leaves": [
                    {**_part(register, leaf.key), "quantity": leaf.quantity, "supplied": leaf.supplied}
                    for leaf in way
                ]
            }
            for way in found.alternatives
        ],
        "more": found.more,
        "tree": _need(register, need),
    }


def _part(register: Register, key: PartKey) -> Object:
    return {"number": register.parts[key].number, "by": key.by}


def _need(register: Register, need: Need) -> Object:
    return {
        **_part(register, need.key),
        "quantity": need.quantity,
        "ending": published(need.ending) if need.ending else None,
        "acts": [_step(register, step) for step in need.steps],
        "dropped": [{"act": dropped.act.id, "why": DROPPED} for dropped in need.dropped],
    }


def _step(register: Register, step: Step) -> Object:
    return {
        "act": step.act.id,
        "times": step.times,
        "spare": step.spare,
        "applies": "maybe" if step.maybe else "yes",
        "together": [{**_part(register, key), "quantity": n} for key, n in step.together],
        "gives": [_need(register, need) for need in step.gives],
        "needs": [_need(register, need) for need in step.besides],
        "conversions": [need.conversion for need in step.conversions],
    }
