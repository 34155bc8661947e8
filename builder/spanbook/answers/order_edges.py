"""Where, over the numbers of a series, what is ordered for some part numbers may change: at the ends of the
acts that orders of them may go by."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.bounds import reach_of
from spanbook.answers.sets import sets_of
from spanbook.ground.intervals import Reach
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Series, Supersession
from spanbook.register.model import Register


def order_edges(register: Register, keys: Iterable[PartKey], series: Series) -> Iterator[Reach]:
    """What the limited acts that bear on orders of some numbers cover of a series."""
    for act in acts_on(register, keys):
        yield from (reach_of(span, series) for span in act.serials if span.series == series.id)


def acts_on(register: Register, keys: Iterable[PartKey]) -> Iterator[Supersession]:
    """Every act that an order of some numbers may go by, or that says whether another is past."""
    waiting, known, told = list(keys), set[PartKey](), set[Supersession]()
    while waiting:
        key = waiting.pop()
        if key in known or key not in register.parts:
            continue
        known.add(key)
        for act in (*register.parts[key].old_in, *_bringing_back(register, key)):
            if act not in told:
                told.add(act)
                yield act
        waiting += (to for act in register.parts[key].old_in for to in _leads_to(register, act))
        waiting += sets_of(register, key)


def _leads_to(register: Register, act: Supersession) -> Iterator[PartKey]:
    needed = (need.part for need in act.needs)
    for use in (*act.new, *(part for part in needed if part)):
        yield register.key_of(act, use)


def _bringing_back(register: Register, key: PartKey) -> Iterator[Supersession]:
    """The acts that give a number again, and those that dispute what they replace by it."""
    for act in register.parts[key].new_in:
        for use in act.old:
            yield from register.parts[register.key_of(act, use)].old_in
