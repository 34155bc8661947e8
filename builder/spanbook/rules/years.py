"""Years that are not known exactly."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.reading.basics import Around, Beside
from spanbook.reading.dated import YearSaid
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Conversion, Source, Supersession
from spanbook.reading.write import flow
from spanbook.register.model import Register
from spanbook.rules.check import Check

_ACT = (
    "# file: content/supersessions/pad.yml\nkind: supersession\nid: pad\n"
    "old: [{{number: P1}}]\nnew: [{{number: P2}}]\nyear: {}\n"
)
YEARS_BACKWARDS = Rule(
    "years-backwards",
    Severity.ERROR,
    "A year that lies somewhere between two is written with the earlier first.",
    bad=_ACT.format("[1938, 1936]"),
    good=_ACT.format("[1936, 1938]"),
)


def when(year: YearSaid) -> str:
    """In which year something was done, as it was typed."""
    match year:
        case (first, last):
            return f"between {first} and {last}"
        case Around(number, off):
            return f"about {number} ± {off}"
        case Beside(side, number):
            return f"{side} {number}"
        case _:
            return f"in {year}"


def _backwards(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if not isinstance(record, (Conversion, Source, Supersession)):
            continue
        until = record.until if isinstance(record, Conversion) else None
        for key, end in (("year", record.year), ("until", until)):
            if isinstance(end, tuple) and end[0] > end[1]:
                read = f"the years {end[0]} and {end[1]}, the later first"
                todo = f"write the earlier first: {flow(sorted(end))}"
                yield Finding(record.origin.place(key), read, todo)


CHECKS = (Check(YEARS_BACKWARDS, _backwards),)
