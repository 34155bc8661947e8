"""When teardowns were made, and the serial numbers they were read from."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import Fits
from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import all_of
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.rules.check import FitsCheck

_FILE = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
)
_GOOD = _FILE + "serial: XA 7\ncondition: untouched\nfound:\n- {position: body/cover, note: A plain lid}\n"
_TWIN = (
    "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Example Works\nseries:\n"
    '- {id: za, stamped: "XA {number}", plate: machine, first: 6, last: 9, evidence: [{source: book}]}\n'
)
_LIDS = "".join(
    f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_}\nposition: body/cover\n"
    f"serials:\n- {{series: xa, first: {first}, last: {last}, evidence: [{{source: book}}]}}\n"
    for id_, first, last in (("lid", 1, 20), ("hat", 21, 40))
)
_SEEN = _FILE + "serial: XA 7\ncondition: untouched\nfound:\n- {{position: body/cover, {}}}\n"

SERIAL_UNREAD = Rule(
    "serial-unread",
    Severity.ERROR,
    "A teardown whose serial number was issued in no series can bear on no statement.",
    bad=_GOOD.replace("XA 7", "QQ 7"),
    good=_GOOD.replace("XA 7", "XA ?7"),
)
SERIAL_UNCLEAR = Rule(
    "serial-unclear",
    Severity.WARNING,
    "A number that reads in two series counts for neither until the teardown says which.",
    bad=_GOOD + _TWIN,
    good=_GOOD.replace("serial: XA 7", "serial: XA 7\nseries: xa") + _TWIN,
)
DATES_REVERSED = Rule(
    "dates-reversed",
    Severity.ERROR,
    "Some time from one date to another begins with the earlier.",
    bad=_GOOD.replace("date: 2024", "date: 2024/2021-05"),
    good=_GOOD.replace("date: 2024", "date: 2021-05/2024"),
)

FOUND_TWICE = Rule(
    "found-twice",
    Severity.ERROR,
    "It was one assembly that is named, or one of several: both at once says nothing that can be weighed.",
    bad=_LIDS + _SEEN.format("assembly: lid, one-of: [lid, hat]"),
    good=_LIDS + _SEEN.format("one-of: [lid, hat]"),
)


def _found_twice(fits: Fits) -> Iterator[Finding]:
    for teardown in fits.register.teardowns.values():
        for i, find in enumerate(teardown.found):
            if find.assembly and find.one_of:
                place = teardown.origin.place("found", i, "one-of")
                yield Finding(place, _("one of several, and an assembly as well"), _("keep one of the two"))


def _reversed(fits: Fits) -> Iterator[Finding]:
    for teardown in fits.register.teardowns.values():
        begin, __, end = teardown.date.partition("/")
        # As far as both say: 2021/2021-05 is some time in 2021.
        alike = min(len(begin), len(end))
        if begin[:alike] > end[:alike]:
            read = _("from {begin} back to {end}").format(begin=begin, end=end)
            yield Finding(
                teardown.origin.place("date"),
                read,
                _("put the earlier first: {end}/{begin}").format(end=end, begin=begin),
            )


def _unread(fits: Fits) -> Iterator[Finding]:
    for teardown in fits.register.teardowns.values():
        # A series in a machine's record that could not be read may have it.
        if not fits.possible(teardown) and not fits.register.unread.by_sort.get("series"):
            said = (
                _("the serial number {serial}, which was issued in no series {series}")
                if teardown.series
                else _("the serial number {serial}, which was issued in no series")
            )
            read = said.format(serial=teardown.serial, series=teardown.series)
            todo = _("correct it, write ? for a digit that cannot be read, or record the series")
            yield Finding(teardown.origin.place("serial"), read, todo)


def _unclear(fits: Fits) -> Iterator[Finding]:
    for teardown in fits.register.teardowns.values():
        series = {found.series.id for found in fits.possible(teardown)}
        if len(series) > 1:
            read = _("{serial} reads in {series}").format(
                serial=teardown.serial, series=all_of(sorted(series))
            )
            todo = _("add series with the one it is, for example series: {}").format(min(series))
            yield Finding(teardown.origin.place("serial"), read, todo)


CHECKS = (
    FitsCheck(SERIAL_UNREAD, _unread),
    FitsCheck(SERIAL_UNCLEAR, _unclear),
    FitsCheck(DATES_REVERSED, _reversed),
    FitsCheck(FOUND_TWICE, _found_twice),
)
