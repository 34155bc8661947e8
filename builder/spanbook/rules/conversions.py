"""Conversions that cannot be done, never fit, or do not say of their parts what the parts lists say."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.converted import made_from, shares
from spanbook.answers.offered import offered
from spanbook.answers.steps import how_many
from spanbook.ground.knots import knots
from spanbook.ground.language import gettext as _
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import all_of, any_of
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Absence, Assembly, Change, Conversion, PartUse
from spanbook.register.model import Register
from spanbook.rules.check import Check


def _assembly(id_: str, position: str, span: str, number: str) -> str:
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: {position}\nserials:\n- {{series: xa, {span}, evidence: [{{source: book}}]}}\n"
        f"parts:\n- {{number: {number}, name: Part {number}}}\n"
    )


def _conversion(id_: str, position: str, start: str, to: str, more: str) -> str:
    return (
        f"# file: content/conversions/{id_}.yml\nkind: conversion\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: {position}\nfrom: [{start}]\nto: {to}\nevidence: [{{source: book}}]\n"
        f"serials:\n- {{series: xa, first: 1, last: 20}}\n{more}"
    )


_LID = _assembly("lid", "body/cover", "first: 1, last: 20", "L-1")
_HAT = _assembly("hat", "body/cover", "first: 1, last: 20, fitted: field", "H-1")
_OLD = _assembly("old-pump", "pump", "first: 1, last: 20", "O-1")
_NEW = _assembly("new-pump", "pump", "first: 1, last: 20, fitted: field", "N-1")
_ALL = _LID + _HAT + _OLD + _NEW
_KIT = _conversion("kit", "body/cover", "lid", "hat", "adds: [{number: H-1}]\nremoves: [{number: L-1}]\n")
_NEEDING = _conversion(
    "kit", "body/cover", "lid", "hat", "needs: [{position: pump, assemblies: [new-pump], why: Oil}]\n"
)
_CIRCLE = _conversion(
    "pump-kit",
    "pump",
    "old-pump",
    "new-pump",
    "needs: [{position: body/cover, assemblies: [hat], why: X}]\n",
)
_NESTED = (
    "# file: content/positions.yml\nkind: positions\npositions:\n- id: body\n  title: Body\n  positions:\n"
    "  - id: cover\n    title: Cover\n    positions:\n    - {id: valve, title: Valve, within: [lid]}\n"
    "  - {id: drain, title: Drain}\n- id: pump\n  title: Pump\n"
)
_WITH_VALVE = _KIT.replace("to: hat", "to: hat\nalso: [{position: body/cover/valve, to: ball}]")
_VALVE = _assembly("ball", "body/cover/valve", "first: 1, last: 20, fitted: field", "V-1")

CONVERSION_NEEDS_CIRCLE = Rule(
    "conversion-needs-circle",
    Severity.ERROR,
    "Conversions that wait for one another can never be begun.",
    bad=_ALL + _NEEDING + _CIRCLE,
    good=_ALL + _NEEDING + _conversion("pump-kit", "pump", "old-pump", "new-pump", ""),
)
CONVERSION_SAME = Rule(
    "conversion-same",
    Severity.ERROR,
    "A conversion into what it starts from converts nothing.",
    bad=_ALL + _conversion("kit", "body/cover", "lid", "lid", ""),
    good=_ALL + _KIT,
)
CONVERSION_NEVER_FITS = Rule(
    "conversion-never-fits",
    Severity.WARNING,
    "A conversion for machines that never had what it starts from, or are never said to have what it makes.",
    bad=_LID + _assembly("hat", "body/cover", "first: 21, last: 40", "H-1") + _KIT,
    good=_ALL + _KIT,
)
CONVERSION_ADDS_STRAY = Rule(
    "conversion-adds-stray",
    Severity.WARNING,
    "What is put on ought to be in the parts list of what it makes.",
    bad=_ALL + _KIT.replace("adds: [{number: H-1}]", "adds: [{number: H-9}]"),
    good=_ALL + _KIT,
)
CONVERSION_REMOVES_STRAY = Rule(
    "conversion-removes-stray",
    Severity.WARNING,
    "What comes off ought to be in the parts list of what it starts from.",
    bad=_ALL + _KIT.replace("removes: [{number: L-1}]", "removes: [{number: L-9}]"),
    good=_ALL + _KIT,
)
CONVERSION_YEARS = Rule(
    "conversion-years",
    Severity.ERROR,
    "A conversion is offered from a year to a later one.",
    bad=_LID + _HAT + _conversion("kit", "body/cover", "lid", "hat", "year: 1938\nuntil: 1934\n"),
    good=_LID + _HAT + _conversion("kit", "body/cover", "lid", "hat", "year: 1934\nuntil: 1938\n"),
)
CONVERSION_BEFORE_ITS_MACHINES = Rule(
    "conversion-before-its-machines",
    Severity.WARNING,
    "A conversion that was no longer offered when the first of its machines was made fits none of them.",
    bad=_LID + _HAT + _conversion("kit", "body/cover", "lid", "hat", "year: 1928\nuntil: 1929\n"),
    good=_LID + _HAT + _conversion("kit", "body/cover", "lid", "hat", "year: 1934\nuntil: 1938\n"),
)


CONVERSION_TWICE_THERE = Rule(
    "conversion-twice-there",
    Severity.ERROR,
    "One conversion makes one thing of a position.",
    bad=_ALL + _KIT + "also: [{position: body/cover, to: lid}]\n",
    good=_ALL + _KIT + "also: [{position: pump, from: [old-pump], to: new-pump}]\n",
)
CONVERSION_NO_PLACE = Rule(
    "conversion-no-place",
    Severity.ERROR,
    "What goes inside an assembly can be put only into one that has the place for it.",
    bad=_NESTED + _ALL + _VALVE + _WITH_VALVE,
    good=_NESTED.replace("lid", "hat") + _ALL + _VALVE + _WITH_VALVE,
)
CONVERSION_TAKES_STRAY = Rule(
    "conversion-takes-stray",
    Severity.WARNING,
    "What is taken off another position ought to be in the parts list of something that goes there, as many.",
    bad=_ALL + _KIT + "takes: [{position: pump, number: H-1}]\n",
    good=_ALL + _KIT + "takes: [{position: pump, number: O-1}]\n",
)


def _circle(register: Register) -> Iterator[Finding]:
    """A conversion waits for another that alone makes what it needs, where no machine left the works so."""
    arrows: list[tuple[str, str]] = []
    for one in register.conversions.values():
        for need in (need for need in one.needs if not need.advice):
            makers = [c.id for a in need.assemblies for c in register.conversions_to.get(a, ())]
            fitted = any(_fitted_at_works(register, a) for a in need.assemblies)
            if len(makers) == 1 and not fitted:
                arrows.append((one.id, makers[0]))
    for knot in knots(arrows):
        if len(knot) > 1:
            first = register.conversions[min(knot)]
            read = _("{} need one another first").format(all_of(sorted(knot)))
            yield Finding(first.origin.place("needs"), read, _("drop one of the needs"))


def _fitted_at_works(register: Register, assembly: str) -> bool:
    record = register.assemblies.get(assembly)
    return record is not None and any(span.fitted == "factory" for span in record.serials)


def _same(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        for change, steps in _changes(one):
            if change.to in change.start:
                read = _("from {} to itself").format(change.to)
                yield Finding(one.origin.place(*steps, "to"), read, _("correct from or to"))


def _changes(conversion: Conversion) -> Iterator[tuple[Change, tuple[Step, ...]]]:
    """What a conversion changes, and where in its record that stands."""
    own, *others = conversion.changes
    yield own, ()
    yield from ((change, ("also", i)) for i, change in enumerate(others))


def _twice_there(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        seen: set[str] = set()
        for change, steps in _changes(one):
            if change.position in seen:
                read = _("{} a second time").format(change.position)
                yield Finding(one.origin.place(*steps, "position"), read, _("leave one of the two out"))
            seen.add(change.position)


def _no_place(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        for change, steps in _changes(one):
            position = register.positions.get(change.position)
            housing = position.housing if position else None
            around = one.change_at(housing.position) if housing else None
            if housing and around and around.to not in housing.assemblies:
                read = _("{made} at {position}, and {around} has no such place").format(
                    made=change.to, position=change.position, around=around.to
                )
                yield Finding(one.origin.place(*steps, "position"), read, _("correct one of the two"))


def _takes(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        for i, taken in enumerate(one.takes):
            key = register.key_of(one, taken.use)
            lists = [a for a in register.at_position.get(taken.position, ()) if a.parts]
            had = (how_many(register, held, key) for held in lists)
            if lists and max(had) < taken.quantity:
                read = _("{quantity} × {number} off {position}, and nothing there has it").format(
                    quantity=taken.quantity, number=taken.number, position=taken.position
                )
                yield Finding(one.origin.place("takes", i), read, _("correct the number or the quantity"))


def _never_fits(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        for key, ids in (("from", one.start), ("to", (one.to,))):
            for i, id_ in enumerate(ids):
                assembly = register.assemblies.get(id_)
                if assembly and not shares(register, one, assembly):
                    place = one.origin.place(key, i) if key == "from" else one.origin.place("to")
                    read = _("{}, which has no span on the machines that may take it").format(id_)
                    todo = (
                        _("correct the spans, or add the one that is missing")
                        if key == "from"
                        else _("give it a span of them with fitted: field, or correct the spans")
                    )
                    yield Finding(place, read, todo)


def _strays(
    register: Register, conversion: Conversion, uses: tuple[PartUse, ...], assemblies: Sequence[Assembly]
) -> Iterator[tuple[int, PartUse]]:
    """The lines that none of some assemblies contains; none where one of them has no list of parts."""
    if not all(held.parts or isinstance(held, Absence) for held in assemblies):
        return
    inside = {register.key_of(held, use.said) for held in assemblies for use in register.uses_of(held)}
    for i, use in enumerate(uses):
        if register.key_of(conversion, use) not in inside:
            yield i, use


def _adds(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        made = [held for change in one.changes if (held := register.assemblies.get(change.to))]
        for i, use in _strays(register, one, one.adds, made) if made else ():
            ids = any_of(held.id for held in made)
            read = _("{number} is put on, and {ids} does not contain it").format(number=use.number, ids=ids)
            yield Finding(one.origin.place("adds", i), read, _("correct the number or the parts list"))


def _removes(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        beside = [held for c in one.also for id_ in c.start if (held := register.assemblies.get(id_))]
        for id_ in one.start:
            start = register.assemblies.get(id_)
            for i, use in _strays(register, one, one.removes, [start, *beside]) if start else ():
                read = _("{number} comes off, and {id} does not contain it").format(number=use.number, id=id_)
                yield Finding(one.origin.place("removes", i), read, _("correct the number or the parts list"))


def _years(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        when = offered(one)
        if one.until is not None and not when.can_be:
            read = _("offered from {first} at the earliest to {last} at the latest").format(
                first=when.first[0], last=when.last[1]
            )
            yield Finding(one.origin.place("until"), read, _("correct the years"))


def _before_its_machines(register: Register) -> Iterator[Finding]:
    for one in register.conversions.values():
        last = offered(one).last[1]
        made = made_from(register, one)
        if made and made > last:
            read = _("offered to {last} at the latest, and its machines were made from {made} on").format(
                last=last, made=made
            )
            yield Finding(one.origin.place("until"), read, _("correct the years or the numbers"))


CHECKS = (
    Check(CONVERSION_YEARS, _years),
    Check(CONVERSION_BEFORE_ITS_MACHINES, _before_its_machines),
    Check(CONVERSION_NEEDS_CIRCLE, _circle),
    Check(CONVERSION_SAME, _same),
    Check(CONVERSION_TWICE_THERE, _twice_there),
    Check(CONVERSION_NO_PLACE, _no_place),
    Check(CONVERSION_TAKES_STRAY, _takes),
    Check(CONVERSION_NEVER_FITS, _never_fits),
    Check(CONVERSION_ADDS_STRAY, _adds),
    Check(CONVERSION_REMOVES_STRAY, _removes),
)
