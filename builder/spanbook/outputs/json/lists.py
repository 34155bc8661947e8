"""What parts lists say of a number, as JSON objects."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from spanbook.answers.lines import Line, Lists
from spanbook.answers.listed import Listed
from spanbook.ground.part_numbers import PartKey
from spanbook.outputs.json.codes import runs
from spanbook.register.model import Register

Object = dict[str, Any]


def list_objects(lists: Lists, lines: Iterable[Listed]) -> list[Object]:
    """Each line with the number: `only` is null where it is on every machine that has the assembly."""
    register = lists.register
    return [
        {
            "assembly": one.assembly.id,
            "quantity": one.use.quantity,
            "covers": str(one.covers),
            "only": _only(lists, one.line),
            "or": [_number(register, key) for key in one.either],
            "instead": [
                {
                    "numbers": [_number(register, key) for key in other.line.keys],
                    "quantity": other.line.part.quantity,
                    "covers": str(other.covers),
                    "only": _only(lists, other.line),
                }
                for other in one.instead
            ],
        }
        for one in lines
    ]


def _only(lists: Lists, line: Line) -> list[Object] | None:
    machines = lists.machines(line)
    return None if machines is None else runs(machines)


def _number(register: Register, key: PartKey) -> Object:
    return {"number": register.parts[key].number, "by": key.by}
