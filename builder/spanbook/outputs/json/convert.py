"""How a machine is converted, as a JSON object (`schema/answer-convert.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.orders import Ordering
from spanbook.answers.plans import NoPlan, Plan
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Reason
from spanbook.answers.steps import Step
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json.codes import ordering_of
from spanbook.reading.records import Conversion, PartUse, PositionNeed
from spanbook.register.model import Register
from spanbook.wording.conversions import why_words

Object = dict[str, Any]


def as_object(
    answers: Answers, reading: Reading, serial: str, plan: Plan | NoPlan, year: int | None = None
) -> Object:
    """The steps in order; or why there is no way, with the parts that would have to be found."""
    made: Object = {"query": serial, "kind": "convert", "year": year}
    if isinstance(plan, Plan):
        ordering = Ordering(answers.register, reading, year)
        return {
            **made,
            "possible": True,
            **_plan(answers, ordering, plan),
            "others": [_plan(answers, ordering, other) for other in plan.others],
            "more": plan.more,
            "back": _back(plan.back) if plan.back else None,
        }
    return {
        **made,
        "possible": False if plan.proven else None,
        "why": str(plan.why),
        "wanted": {"position": plan.position, "assembly": plan.wanted},
        "unmet": _needing(*plan.need) if plan.need else None,
        "unknown": plan.unknown,
        "states": plan.states,
        "other-years": [conversion.id for conversion in plan.other_years],
        "missing": [_part(answers.register, key, quantity) for key, quantity in plan.missing],
    }


def _back(back: Plan | NoPlan) -> Object:
    if isinstance(back, NoPlan):
        return {"possible": False if back.proven else None}
    return {"possible": True, "new-parts": back.new_parts, "steps": [step.id for step in back.steps]}


def _plan(answers: Answers, ordering: Ordering, plan: Plan) -> Object:
    return {
        "new-parts": plan.new_parts,
        "steps": [_step(answers, ordering, step) for step in plan.steps],
        "advised": [_needing(*advised) for advised in plan.advised],
        "left-without": [
            {"position": position, **_part(answers.register, key, quantity)}
            for position, key, quantity in plan.left
        ],
    }


def _step(answers: Answers, ordering: Ordering, step: Step) -> Object:
    register, one = answers.register, step.conversion
    judged = answers.standing(one)
    return {
        "conversion": one.id,
        "title": one.title,
        "position": one.position,
        "to": one.to,
        "applies": "maybe" if step.maybe else "yes",
        "offered": "maybe" if step.perhaps else "yes",
        "standing": str(judged.standing),
        "reasons": [_reason(reason) for reason in judged.reasons],
        "get": [_to_get(ordering, one, use) for use in one.adds],
        "keep": [_part(register, register.key_of(one, use), use.quantity) for use in one.removes],
        "also": [{"position": change.position, "to": change.to} for change in one.also],
        "take": [
            {
                "position": taken.position,
                **_part(register, register.key_of(one, taken.use), taken.quantity),
            }
            for taken in one.takes
        ],
        "needs": [_need(need) for need in (*one.needs, *step.inside)],
    }


def _reason(reason: Reason) -> Object:
    return {"weight": str(reason.weight), "kind": reason.by.kind, "id": reason.by.id, "at": reason.at}


def _needing(conversion: Conversion, need: PositionNeed) -> Object:
    return {"conversion": conversion.id, **_need(need)}


def _need(need: PositionNeed) -> Object:
    return {
        "position": need.position,
        "assemblies": list(need.assemblies),
        "why": why_words(need),
        "advice": need.advice,
    }


def _to_get(ordering: Ordering, conversion: Conversion, use: PartUse) -> Object:
    """A part of a step, and what is ordered for it today on this machine."""
    register = ordering.register
    key = register.key_of(conversion, use)
    found = ordering.of(key, use.quantity)
    ways = [
        [{**_part(register, leaf.key, leaf.quantity), **ordering_of(way, leaf)} for leaf in way.leaves]
        for way in found.alternatives
    ]
    return {**_part(register, key, use.quantity), "order": ways}


def _part(register: Register, key: PartKey, quantity: int) -> Object:
    part = register.parts[key]
    return {"number": part.number, "by": key.by, "name": part.name, "quantity": quantity}
