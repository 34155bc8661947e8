"""How an assembly comes apart, as a JSON object (`schema/answer-strip.json`)."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.accounts import Must, Said, SheetStep
from spanbook.answers.freed import Choice, Freed
from spanbook.answers.orders import Orders
from spanbook.answers.renewing import MayHold
from spanbook.answers.strip_down import Sheet, renewals
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.units import UNITS
from spanbook.outputs.json.codes import ordering_of
from spanbook.register.model import Register

Object = dict[str, Any]


def as_object(
    register: Register, sheet: Sheet, serial: str | None = None, held: MayHold | None = None
) -> Object:
    """Steps by their places from 1, what must be, what is renewed and what is ordered for it today; of one
    machine also whether and how it may hold the assembly."""
    return {
        "query": sheet.assembly.id,
        "kind": "strip",
        "serial": serial,
        "held": held_object(held) if held else None,
        "accounts": [account.id for account in sheet.accounts],
        "cautions": list(sheet.cautions),
        "steps": [_step(register, step) for step in sheet.steps],
        "musts": [_must(must) for must in sheet.musts],
        "dropped": [_must(must) for must in sheet.dropped],
        "either": [[first + 1, then + 1] for first, then in sheet.either],
        "renew": [renewed(register, freed) for freed in sheet.renewed],
        "stays": _there(register, sheet.stays),
        "untold": _there(register, sheet.untold),
    }


def held_object(held: MayHold) -> Object:
    """Whether and how a machine may hold an assembly."""
    return {
        "id": held.assembly.id,
        "seen": held.seen,
        "left": str(held.left),
        "disputed": held.disputed,
        "changed": held.changed,
    }


def _step(register: Register, step: SheetStep) -> Object:
    return {
        "frees": [_freed(register, freed) for freed in step.frees if freed.choices],
        "not-there": [
            _part(register, key) for freed in step.frees if not freed.choices for key in freed.told
        ],
        "renew": step.renew,
        "said": [_said(one) for one in step.said],
    }


def _said(one: Said) -> Object:
    step = one.step
    return {
        "account": one.account.id,
        "step": step.id,
        "do": step.do,
        "tools": [
            {
                "what": tool.what,
                "value": tool.value,
                "unit": tool.unit,
                "ucum": UNITS[tool.unit].ucum if tool.unit else None,
                "made": tool.made,
            }
            for tool in step.tools
        ],
        "sizes": [
            {
                "what": size.what,
                "number": size.number,
                "value": size.value,
                "to": size.to,
                "unit": size.unit,
                "ucum": UNITS[size.unit].ucum,
            }
            for size in step.sizes
        ],
        "catch": [{"what": catch.what, "number": catch.number, "how": catch.how} for catch in step.catch],
        "hand": step.hand,
        "back": step.back,
        "minutes": step.minutes,
    }


def _must(must: Must) -> Object:
    return {
        "first": must.first + 1,
        "then": must.then + 1,
        "said": [{"account": account.id, "why": why} for account, why in must.said],
        "against": [account.id for account in must.against],
    }


def renewed(register: Register, freed: Freed) -> Object:
    """What is renewed; each number that it may be has its own orders."""
    first, *others = map(_ways, [register] * len(freed.choices), renewals(register, freed))
    made = _freed(register, freed)
    for one, ways in zip(made["or"], others, strict=True):
        one["order"] = ways
    return {**made, "order": first}


def _ways(register: Register, found: Orders) -> list[list[Object]]:
    return [
        [{**_part(register, leaf.key, leaf.quantity), **ordering_of(way, leaf)} for leaf in way.leaves]
        for way in found.alternatives
    ]


def _there(register: Register, places: Iterable[Freed]) -> list[Object]:
    return [_freed(register, freed, count=False) for freed in places if freed.choices]


def _freed(register: Register, freed: Freed, *, count: bool = True) -> Object:
    """The first of the numbers that it may be, and the others."""
    first, *others = (_choice(register, one, count=count) for one in freed.choices)
    return {**first, "or": others}


def _choice(register: Register, one: Choice, *, count: bool) -> Object:
    return {**_part(register, one.key, one.quantity if count else 1), "covers": str(one.covers)}


def _part(register: Register, key: PartKey, quantity: int = 1) -> Object:
    part = register.parts[key]
    return {"number": part.number, "by": key.by, "name": part.name, "quantity": quantity}
