"""What was ordered when: of a number that was withdrawn and brought back, over the years.

The years are cut wherever an act that bears on it may or must have been made.
"""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.act_years import ActYears
from spanbook.answers.orders import Orders, orders
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

MOST_YEARS = 12  # a longer table is read by nobody
MOST_ACTS = 200


@dataclass(frozen=True, slots=True)
class Then:
    """What to order from a year (None: ever before) to another (None: since)."""

    first: int | None
    last: int | None
    orders: Orders


def then(register: Register, years: ActYears, key: PartKey) -> tuple[Then, ...]:
    """Year by year; nothing for a number that was never brought back, or where the years are too many."""
    if not years.returns(key):
        return ()
    made = [years.made(act) for act in _acts(register, key)]
    cuts = sorted({year for one in made for year in (one.first, one.last) if year is not None})
    if len(cuts) > MOST_YEARS:
        return ()
    starts = (None, *cuts)
    ends = (*(year - 1 for year in cuts), None)
    return tuple(
        Then(first, last, orders(register, key, year=cuts[0] - 1 if first is None else first))
        for first, last in zip(starts, ends, strict=True)
    )


def _acts(register: Register, key: PartKey) -> list[Supersession]:
    """The acts on a number and on all that they lead to, so many of them."""
    found: dict[Supersession, None] = {}
    waiting, seen = [key], {key}
    for at in waiting:
        for act in register.parts[at].old_in:
            found[act] = None
            fresh = {register.key_of(act, use) for use in act.new} - seen
            seen |= fresh
            waiting += sorted(fresh)
        if len(found) > MOST_ACTS:
            break
    return list(found)
