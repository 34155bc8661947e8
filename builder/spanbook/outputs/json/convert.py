"""How a machine is converted, as a JSON object (`schema/answer-convert.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.conversions import NoPlan, Plan, Step
from spanbook.answers.orders import orders
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Conversion, PartUse, PositionNeed
from spanbook.register.model import Register

Object = dict[str, Any]


def as_object(register: Register, serial: str, plan: Plan | NoPlan) -> Object:
    """The steps in order; or why there is no way, with the parts that would have to be found."""
    made: Object = {"query": serial, "kind": "convert"}
    if isinstance(plan, Plan):
        steps = [_step(register, step) for step in plan.steps]
        return {**made, "possible": True, "new-parts": plan.new_parts, "steps": steps}
    unmet = {"conversion": plan.unmet[0].id, **_need(plan.unmet[1])} if plan.unmet else None
    missing = [_part(register, key, quantity) for key, quantity in plan.missing]
    wanted = {"position": plan.position, "assembly": plan.wanted}
    return {**made, "possible": False, "wanted": wanted, "unmet": unmet, "missing": missing}


def _step(register: Register, step: Step) -> Object:
    one = step.conversion
    return {
        "conversion": one.id,
        "title": one.title,
        "position": one.position,
        "to": one.to,
        "applies": "maybe" if step.maybe else "yes",
        "get": [_to_get(register, one, use) for use in one.adds],
        "keep": [_part(register, register.key_of(one, use), use.quantity) for use in one.removes],
        "needs": [_need(need) for need in one.needs],
    }


def _need(need: PositionNeed) -> Object:
    return {"position": need.position, "assemblies": list(need.assemblies), "why": need.why}


def _to_get(register: Register, conversion: Conversion, use: PartUse) -> Object:
    """A part of a step, and what is ordered for it today."""
    key = register.key_of(conversion, use)
    found = orders(register, key, use.quantity)
    ways = [[_part(register, leaf.key, leaf.quantity) for leaf in way] for way in found.alternatives]
    return {**_part(register, key, use.quantity), "order": ways}


def _part(register: Register, key: PartKey, quantity: int) -> Object:
    part = register.parts[key]
    return {"number": part.number, "by": key.by, "name": part.name, "quantity": quantity}
