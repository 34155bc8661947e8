"""Where one line of a parts list gave way to the next in its place, in an assembly that went on otherwise.

It is weighed as a break is: by what is printed of the two lines, and by the machines on which a number of
either was read, under the same rates.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Weighed, order_of, weighed
from spanbook.answers.changepoint import Rates, Weights
from spanbook.answers.claims import runs_of
from spanbook.answers.lines import Line, ListPlace
from spanbook.reading.records import Assembly, Find, Series, Teardown
from spanbook.register.statements import Limit


@dataclass(frozen=True, slots=True)
class LineBreak:
    """The place in a series where one line of an assembly's list gave way to another."""

    assembly: Assembly
    series: Series
    earlier: Line
    later: Line
    found: Weighed


def line_breaks(fits: Fits, assembly: Assembly, rates: Rates, weights: Weights) -> Iterator[LineBreak]:
    """Every such place, as far as printed bounds leave an end to it, in the order of the list."""
    for place in fits.lists.places(assembly):
        for series in dict.fromkeys(limit.series for line in place.lines for limit in line.limits):
            for before, after in pairwise(_runs(place, series)):
                earlier, later = (fits.lists.line_of(run[0]) for run in (before, after))
                if earlier is not later:
                    looks = _looks(fits, earlier, later)
                    found = weighed(fits, series, (before, after), looks, rates, weights)
                    if found:
                        yield LineBreak(assembly, series, earlier, later, found)


def _runs(place: ListPlace, series: Series) -> list[tuple[Limit, ...]]:
    """What is claimed of the lines of a place in a series, by the runs that the claims are on, rising."""
    limits = (limit for line in place.lines for limit in line.limits if limit.series is series)
    return sorted(runs_of(limits, series), key=lambda run: order_of(run, series))


def _looks(fits: Fits, earlier: Line, later: Line) -> Iterator[tuple[tuple[Teardown, Find], bool]]:
    """The teardowns that read a number of one of the two, and not of the other, on the assembly."""
    for teardown, find in fits.finds_of(earlier.assembly.id, earlier.assembly.position):
        read = {fits.register.key_of(teardown, use) for use in find.parts}
        sides = [bool(read & set(line.keys)) for line in (earlier, later)]
        if sides.count(True) == 1:
            yield (teardown, find), sides[1]
