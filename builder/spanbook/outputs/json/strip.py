"""How an assembly comes apart, as a JSON object (`schema/answer-strip.json`)."""

from __future__ import annotations

from typing import Any

from spanbook.answers.orders import orders
from spanbook.answers.readings import Reading
from spanbook.answers.strip_down import Freed, Must, Said, Sheet, SheetStep
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json.codes import ordering_of
from spanbook.register.model import Register

Object = dict[str, Any]


def as_object(register: Register, sheet: Sheet, serial: str | None, reading: Reading | None) -> Object:
    """Steps by their places from 1, what must be, what is renewed and what is ordered for it today."""
    return {
        "query": sheet.assembly.id,
        "kind": "strip",
        "serial": serial,
        "accounts": [account.id for account in sheet.accounts],
        "cautions": list(sheet.cautions),
        "steps": [_step(register, step) for step in sheet.steps],
        "musts": [_must(must) for must in sheet.musts],
        "dropped": [_must(must) for must in sheet.dropped],
        "either": [[first + 1, then + 1] for first, then in sheet.either],
        "renew": [_renewed(register, freed, reading) for freed in sheet.renewed],
        "stays": [_part(register, key) for key in sheet.stays],
        "untold": [_part(register, key) for key in sheet.untold],
    }


def _step(register: Register, step: SheetStep) -> Object:
    return {
        "frees": [_part(register, *freed) for freed in step.frees],
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
            {"what": tool.what, "value": tool.value, "unit": tool.unit, "made": tool.made}
            for tool in step.tools
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


def _renewed(register: Register, freed: Freed, reading: Reading | None) -> Object:
    found = orders(register, *freed, reading)
    ways = [
        [{**_part(register, leaf.key, leaf.quantity), **ordering_of(way, leaf)} for leaf in way.leaves]
        for way in found.alternatives
    ]
    return {**_part(register, *freed), "order": ways}


def _part(register: Register, key: PartKey, quantity: int = 1) -> Object:
    part = register.parts[key]
    return {"number": part.number, "by": key.by, "name": part.name, "quantity": quantity}
