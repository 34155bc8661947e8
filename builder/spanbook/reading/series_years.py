"""The years of a series' numbers: exact where the stamp says them, as far as its table goes elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Protocol

from spanbook.ground.running_order import Block, Layout, Restarts
from spanbook.ground.stamped import What
from spanbook.ground.years import FAR, YearTable
from spanbook.reading.basics import Beside, End, Typed
from spanbook.reading.series_typed import SeriesTyped


class Order(Protocol):
    """What is asked of a running order."""

    typed: SeriesTyped

    @property
    def layout(self) -> Layout: ...
    @property
    def blocks(self) -> Sequence[Block]: ...
    @property
    def restarts(self) -> Restarts | None: ...
    @property
    def first(self) -> int: ...
    @property
    def last(self) -> int | None: ...
    def place(self, typed: Typed) -> int | None: ...
    def ends(self, end: End | Beside) -> tuple[int, int] | None: ...
    def in_block(self, typed: object, block: Block) -> int | None: ...


def years_of(order: Order) -> YearTable:
    """The years of the places of a series."""
    if What.YEAR in order.layout.ordered:
        return _of_blocks(order)
    bounds = first_bounds(order)
    lasts: dict[int, int] = {}
    before: int | None = None
    for year, (low, high) in bounds.items():
        if before is not None and low < high:
            lasts[before] = high - 1
        before = year
    for year, typed in order.typed.years_last.items():
        if (last := order.place(typed)) is not None:
            lasts[year] = max(last, lasts.get(year, 0))
    # Before the first year nothing is dated: nor are numbers that may be of it or of one before it.
    firsts = {year: low if i else high for i, (year, (low, high)) in enumerate(bounds.items())}
    unsure = tuple(year for year, (low, high) in bounds.items() if low < high)
    return replace(YearTable.of(firsts), lasts=tuple(sorted(lasts.items())), unsure=unsure)


def first_bounds(order: Order) -> dict[int, tuple[int, int]]:
    """Where the first number of each year may lie."""
    years = sorted(order.typed.years.items())
    known = {year: ends for year, end in years if (ends := order.ends(end))}
    for i, (year, end) in enumerate(years):
        if isinstance(end, Beside) and (place := order.place(end.number)) is not None:
            if end.side == "before":
                lowest = max((known[y][0] for y, _ in years[:i] if y in known), default=order.first)
                known[year] = (min(lowest, place - 1), place - 1)
            else:
                beyond = FAR if order.last is None else order.last
                highest = min((known[y][1] for y, _ in years[i + 1 :] if y in known), default=beyond)
                known[year] = (place + 1, max(highest, place + 1))
    return dict(sorted(known.items()))


def _of_blocks(order: Order) -> YearTable:
    """Where the year orders the numbers: each has blocks of its own, and ends with its last number."""
    firsts: dict[int, int] = {}
    ends: dict[int, int | None] = {}
    for block in order.blocks:
        year = int(block.values[What.YEAR])
        first, last = block.at, None
        if order.restarts is Restarts.YEAR:
            first = order.in_block(order.typed.years.get(year), block) or block.at
            last = order.in_block(order.typed.years_last.get(year), block)
        firsts.setdefault(year, first)
        ends[year] = last
    return replace(YearTable.of(firsts), ends=tuple(ends.items()))
