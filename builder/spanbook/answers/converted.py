"""The machines that may take a conversion: which assemblies they may have, and when the first was made."""

from __future__ import annotations

from itertools import product

from spanbook.answers.bounds import reach_of
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Assembly, Conversion
from spanbook.register.model import Register


def shares(register: Register, conversion: Conversion, assembly: Assembly) -> bool:
    """Whether an assembly has a span on machines that may take a conversion."""
    for mine, theirs in product(conversion.serials, assembly.serials):
        if mine.series == theirs.series and mine.series in register.series:
            series = register.series[mine.series]
            if reach_of(mine, series).possibly & reach_of(theirs, series).possibly != SpanSet():
                return True
    return False


def made_from(register: Register, conversion: Conversion) -> int | None:
    """The year in which the first of its machines was made; None where not all are dated."""
    years = []
    for span in conversion.serials:
        series = register.series.get(span.series)
        meant = reach_of(span, series).possibly if series else SpanSet()
        dated = series.years.year_of(meant.first) if series and meant else None
        if dated is None:
            return None
        years.append(dated.first)
    return min(years, default=None)
