"""Everything that is renewed on one machine, as a JSON object (`schema/answer-renew.json`)."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from spanbook.answers.renewing import Holding, MayHold
from spanbook.outputs.json.strip import held_object, renewed
from spanbook.register.model import Register

Object = dict[str, Any]


def as_object(register: Register, serial: str, holdings: Sequence[Holding]) -> Object:
    """Every position of the machine, with each assembly that may be there and what is renewed of it."""
    return {
        "query": serial,
        "kind": "renew",
        "positions": [
            {
                "position": one.position,
                "unknown": one.unknown,
                "ask-by": one.ask_by,
                "may-hold": [{**held_object(held), **_told(register, held)} for held in one.held],
            }
            for one in holdings
        ],
    }


def _told(register: Register, held: MayHold) -> Object:
    """From how many accounts, and what is renewed; neither is known where nobody has told."""
    sheet = held.sheet
    return {
        "accounts": [account.id for account in sheet.accounts] if sheet else [],
        "renew": [renewed(register, freed) for freed in sheet.renewed] if sheet else None,
    }
