"""Years that are not known exactly."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
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
            return _("between {first} and {last}").format(first=first, last=last)
        case Around(number, off):
            return _("about {number} ± {off}").format(number=number, off=off)
        case Beside(side, number):
            return (_("before {}") if side == "before" else _("after {}")).format(number)
        case _:
            return pgettext("a year", "in {}").format(year)


def _backwards(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if not isinstance(record, (Conversion, Source, Supersession)):
            continue
        until = record.until if isinstance(record, Conversion) else None
        for key, end in (("year", record.year), ("until", until)):
            if isinstance(end, tuple) and end[0] > end[1]:
                read = _("the years {first} and {last}, the later first").format(first=end[0], last=end[1])
                todo = _("write the earlier first: {}").format(flow(sorted(end)))
                yield Finding(record.origin.place(key), read, todo)


CHECKS = (Check(YEARS_BACKWARDS, _backwards),)
