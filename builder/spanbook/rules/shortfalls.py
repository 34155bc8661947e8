"""Conversions and supersessions that surely reach less far, or farther, than what they are for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import reach_of
from spanbook.answers.converted import shares
from spanbook.answers.ever import Ever, holders
from spanbook.answers.shortfalls import Unreached, index_of, need_unmet, never_had, past_base, unreached
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import any_of
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.rules.check import FitsCheck


def _assembly(id_: str, position: str, span: str, number: str = "") -> str:
    parts = f"parts: [{{number: {number}, name: Part}}]\n" if number else ""
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: {position}\nserials:\n- {{series: xa, {span}, evidence: [{{source: book}}]}}\n{parts}"
    )


def _kit(span: str, more: str = "") -> str:
    return (
        "# file: content/conversions/kit.yml\nkind: conversion\nid: kit\ntitle: Kit\nposition: body/cover\n"
        f"from: [lid]\nto: hat\nevidence: [{{source: book}}]\nserials:\n- {{series: xa, {span}}}\n{more}"
    )


def _act(span: str) -> str:
    return (
        "# file: content/supersessions/p-to-q.yml\nkind: supersession\nid: p-to-q\nold: [{number: L-1}]\n"
        f"new: [{{number: L-2}}]\nevidence: [{{source: book}}]\nserials:\n- {{series: xa, {span}}}\n"
    )


_LID = _assembly("lid", "body/cover", "first: 1, last: 20", "L-1")
_HAT = _assembly("hat", "body/cover", "first: 21, last: 99", "H-1")
_NEED = "needs: [{position: pump, assemblies: [new-pump], why: Oil}]\n"
_PUMPS = _assembly("old-pump", "pump", "first: 1, last: 9") + _assembly(
    "new-pump", "pump", "first: 10, last: 99"
)

CONVERSION_SHORT_OF_BASE = Rule(
    "conversion-short-of-base",
    Severity.ADVICE,
    "Machines with the same arrangement as those that may be converted, which no conversion reaches: the "
    "letter may have been written before the last of them, or somebody may know why not.",
    bad=_LID + _HAT + _kit("first: 1, last: 15"),
    good=_LID + _HAT + _kit("first: 1, last: 20"),
)
CONVERSION_PAST_BASE = Rule(
    "conversion-past-base",
    Severity.ADVICE,
    "A conversion for machines that never had what it starts from: one of the spans is wrong.",
    bad=_LID + _HAT + _kit("first: 1, last: 25"),
    good=_LID + _HAT + _kit("first: 1, last: 20"),
)
CONVERSION_NEED_UNMET = Rule(
    "conversion-need-unmet",
    Severity.ADVICE,
    "A conversion that needs elsewhere what those machines can never hold cannot be done on them: either it "
    "is not for them, or what brings it there is not recorded.",
    bad=_LID + _HAT + _PUMPS + _kit("first: 1, last: 20", _NEED),
    good=_LID
    + _HAT
    + _PUMPS.replace("last: 99", "last: 99, fitted: field").replace("first: 10", "first: 1")
    + _kit("first: 1, last: 20", _NEED),
)
SUPERSESSION_NEVER_HAD = Rule(
    "supersession-never-had",
    Severity.ADVICE,
    "A replacement limited to machines that never had the old part: its span or the old number is wrong, or "
    "what had it there is not recorded.",
    bad=_LID + _HAT + _act("first: 15, last: 30"),
    good=_LID + _HAT + _act("first: 15, last: 20"),
)


def _short(fits: Fits) -> Iterator[Finding]:
    ever, every = Ever(fits), fits.register.assemblies.values()
    for one in (one for assembly in every for one in unreached(ever, assembly)):
        (assembly,) = one.assemblies
        # What never fits at all is told by a rule of its own.
        somewhere = any(shares(fits.register, kit, assembly) for kit in one.conversions)
        if one.numbers.surely and somewhere and not _unread(fits.register, [assembly.id]):
            numbers = told(one.series, one.numbers.surely)
            read = _("{id} is recorded on {numbers}, and no conversion of it reaches there").format(
                id=assembly.id, numbers=numbers
            )
            yield Finding(
                _nearest(one), read, _("widen the span if the source does, or leave it an open question")
            )


def _nearest(one: Unreached) -> Place:
    """The end of a span that the unreached numbers follow; else the beginning that they come before."""
    first = one.numbers.surely.first
    spans = [
        (reach_of(span, one.series).possibly.first, kit, i)
        for kit in one.conversions
        for i, span in enumerate(kit.serials)
        if span.series == one.series.id and reach_of(span, one.series).possibly
    ]
    before = [span for span in spans if span[0] < first]
    __, kit, i = max(before, key=lambda s: s[0]) if before else min(spans, key=lambda s: s[0])
    return kit.origin.place("serials", i, "last" if before else "first")


def _past(fits: Fits) -> Iterator[Finding]:
    ever, register = Ever(fits), fits.register
    for one in (one for kit in register.conversions.values() for one in past_base(ever, kit)):
        kit = one.conversion
        somewhere = any(shares(register, kit, start) for start in one.assemblies)
        if one.numbers.surely and somewhere and not _unread(register, kit.start):
            read = _("{what} was never on {numbers}").format(
                what=any_of(kit.start), numbers=told(one.series, one.numbers.surely)
            )
            where = kit.origin.place("serials", index_of(kit.serials, one.span))
            yield Finding(where, read, _("correct this span, or the spans of what it starts from"))


def _unmet(fits: Fits) -> Iterator[Finding]:
    ever, register = Ever(fits), fits.register
    for one in (one for kit in register.conversions.values() for one in need_unmet(ever, kit)):
        kit, wanted = one.conversion, one.need.assemblies
        if one.numbers.surely and not _unread(register, wanted):
            read = _("nothing recorded brings {wanted} to {numbers}").format(
                wanted=any_of(wanted), numbers=told(one.series, one.numbers.surely)
            )
            where = kit.origin.place("needs", index_of(kit.needs, one.need))
            yield Finding(where, read, _("limit the conversion, or record what brings it there"))


def _never(fits: Fits) -> Iterator[Finding]:
    ever, register = Ever(fits), fits.register
    for one in (one for act in register.supersessions.values() for one in never_had(ever, act)):
        unread = register.unread.may_number(one.part.number)
        if one.numbers.surely and not unread and not _unread(register, [h.id for h in holders(one.part)]):
            read = _("{what} was never on {numbers}").format(
                what=one.part.number, numbers=told(one.series, one.numbers.surely)
            )
            where = one.act.origin.place("serials", index_of(one.act.serials, one.span))
            yield Finding(where, read, _("correct the span or the old number, or record what had it there"))


def _unread(register: Register, ids: Iterable[str]) -> bool:
    """Whether what is missing may be in a file that could not be read and names one of these."""
    return any(register.unread.may_name(id_) for id_ in ids)


def told(series: Series, numbers: SpanSet) -> str:
    """Runs of numbers as a problem names them."""
    show = series.stamp.show
    return ", ".join(
        _("{} and up").format(show(run.first))
        if run.last is None
        else _("{first} to {last}").format(first=show(run.first), last=show(run.last))
        if run.last > run.first
        else show(run.first)
        for run in numbers.over(series.issued)
    )


CHECKS = (
    FitsCheck(CONVERSION_SHORT_OF_BASE, _short),
    FitsCheck(CONVERSION_PAST_BASE, _past),
    FitsCheck(CONVERSION_NEED_UNMET, _unmet),
    FitsCheck(SUPERSESSION_NEVER_HAD, _never),
)
