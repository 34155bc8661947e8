"""Machines of several numbers: that these were issued, are one machine's, and stand in the order of time."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations, pairwise

from spanbook.ground.language import gettext as _
from spanbook.reading.phrases import all_of
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Unit, UnitNumber
from spanbook.register.ids import ids_inside
from spanbook.register.model import Register
from spanbook.register.units import Borne, Number, first_of_plates, read
from spanbook.rules.check import Check

_FILE = "# file: content/units/x-7.yml\nkind: unit\nid: x-7\nmachine: x-one\nnumbers:\n"
_GOOD = _FILE + (
    "- {serial: XA 7, years: ../1935, evidence: [{source: book}]}\n"
    "- {serial: XA 80, years: 1935/.., evidence: [{source: book}]}\n"
)
_TWIN = (
    "# file: content/units/x-8.yml\nkind: unit\nid: x-8\nmachine: x-one\nnumbers:\n"
    "- {serial: XA 8, evidence: [{source: book}]}\n"
)
_OTHER_MACHINE = (
    "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Example Works\nseries:\n"
    '- {id: za, stamped: "ZA {number}", plate: machine, first: 10, last: 90, evidence: [{source: book}]}\n'
)
_ALIKE = (
    "# file: content/machines/x-one.yml\nkind: machine\nid: x-one\ntitle: X One\nmaker: Example Works\n"
    'series:\n- {id: xa, stamped: "XA {number}", plate: machine, first: 1, last: 99, '
    "evidence: [{source: book}]}\n"
    '- {id: xb, stamped: "XA {number:3}", plate: frame, first: 80, last: 99, evidence: [{source: book}]}\n'
)
_POSITIONS = (
    "# file: content/positions.yml\nkind: positions\npositions:\n- id: body\n  title: Body\n"
    "  follows: PLATE\n"
    "  positions:\n  - {id: cover, title: Cover}\n  - {id: drain, title: Drain}\n- {id: pump, title: Pump}\n"
)

NUMBER_UNKNOWN = Rule(
    "unit-number-unknown",
    Severity.ERROR,
    "A number of a unit is one that was issued: else nobody who reads a plate comes to it.",
    bad=_GOOD.replace("XA 80", "XA 180"),
    good=_GOOD,
)
NUMBER_UNCLEAR = Rule(
    "unit-number-unclear",
    Severity.ERROR,
    "A number that reads in two series of the machine counts for neither until the unit says which.",
    bad=_ALIKE + _GOOD,
    good=_ALIKE.replace("last: 79", "last: 99").replace("PLACE", "")
    + _GOOD.replace("{serial: XA 80,", "{serial: XA 80, series: xa,"),
)
NUMBER_ELSEWHERE = Rule(
    "unit-of-two-machines",
    Severity.ERROR,
    "All numbers of a unit are in series of its machine: one machine is of one model.",
    bad=_OTHER_MACHINE + _GOOD.replace("XA 80", "ZA 80"),
    good=_OTHER_MACHINE + _GOOD,
)
NUMBER_TWICE = Rule(
    "unit-number-twice",
    Severity.ERROR,
    "A number is one machine's: two units that have it are one machine, or one of them is wrong.",
    bad=_GOOD + _TWIN + "- {serial: XA 80}\n",
    good=_GOOD + _TWIN + "- {serial: XA 81}\n",
)
YEARS_BACKWARDS = Rule(
    "unit-years-backwards",
    Severity.ERROR,
    "Of one plate a machine bears one number at a time, in the order of its record: first the one it was "
    "built under.",
    bad=_GOOD.replace("../1935", "1940/.."),
    good=_GOOD,
)
PLATES_DISAGREE = Rule(
    "unit-plates-disagree",
    Severity.WARNING,
    "No machine bears a number before it was issued, nor leaves the works with plates of years far apart; "
    "what got its plate later says so in years.",
    bad=_GOOD.replace("../1935", "../1930"),
    good=_GOOD,
)
FOLLOWS_NOTHING = Rule(
    "follows-no-plate",
    Severity.WARNING,
    "A position follows a plate that some series is of; else every number tells what is there.",
    bad=_POSITIONS.replace("PLATE", "motor"),
    good=_POSITIONS.replace("PLATE", "machine"),
)


def _numbers(register: Register) -> Iterator[tuple[Unit, int, UnitNumber, tuple[Number, ...]]]:
    """Every number of every unit, with what it reads as."""
    for unit in register.unit_records.values():
        for i, typed in enumerate(unit.numbers):
            yield unit, i, typed, read(typed, unit, register.series.values())


def _unknown(register: Register) -> Iterator[Finding]:
    for unit, i, typed, found in _numbers(register):
        # A series in a machine's record that could not be read may have it.
        if not found and not register.unread.by_sort.get("series"):
            said = (
                _("the serial number {serial}, which was issued in no series {series}")
                if typed.series
                else _("the serial number {serial}, which was issued in no series")
            )
            told = said.format(serial=typed.serial, series=typed.series)
            place = unit.origin.place("numbers", i, "serial")
            yield Finding(place, told, _("correct it, or record the series with that number"))


def _unclear(register: Register) -> Iterator[Finding]:
    for unit, i, typed, found in _numbers(register):
        if len(found) > 1 and found[0].series.machine == unit.machine:
            series = sorted(one.series.id for one in found)
            todo = _("add series with the one it is, for example series: {}").format(series[0])
            place = unit.origin.place("numbers", i, "serial")
            yield Finding(
                place,
                _("{serial} reads in {series}").format(serial=typed.serial, series=all_of(series)),
                todo,
            )


def _elsewhere(register: Register) -> Iterator[Finding]:
    for unit, i, typed, found in _numbers(register):
        # Where its own machine has the number, others do not matter.
        if found and found[0].series.machine != unit.machine and unit.machine in register.machines:
            told = _("{serial}, a number of {its}, on a unit of {machine}").format(
                serial=typed.serial, its=found[0].series.machine, machine=unit.machine
            )
            todo = _("correct the number or the machine; what bears another model's number is another unit")
            yield Finding(unit.origin.place("numbers", i, "serial"), told, todo)


def _twice(register: Register) -> Iterator[Finding]:
    taken: dict[Number, Unit] = {}
    for unit, i, typed, found in _numbers(register):
        if len(found) == 1 and found[0].series.machine == unit.machine:
            if other := taken.get(found[0]):
                said = (
                    _("the number {serial}, which stands above")
                    if other is unit
                    else _("the number {serial}, which is one of {unit}")
                )
                todo = _("make one record of the two, or correct the number")
                place = unit.origin.place("numbers", i, "serial")
                yield Finding(
                    place,
                    said.format(serial=typed.serial, unit=other.id),
                    todo,
                )
            taken.setdefault(found[0], unit)


def _backwards(register: Register) -> Iterator[Finding]:
    for unit, borne in register.units.numbers.items():
        for one in borne:
            first, last = one.typed.borne
            if first and last and last < first:
                told = _("{serial} from {first} back to {last}").format(
                    serial=one.typed.serial, first=first, last=last
                )
                yield Finding(
                    _years_of(unit, one),
                    told,
                    _("put the earlier first: {last}/{first}").format(last=last, first=first),
                )
        for plate in dict.fromkeys(one.number.plate for one in borne):
            for before, after in pairwise(one for one in borne if one.number.plate == plate):
                if told := _wrong(before, after):
                    todo = _("put the numbers in the order in which it bore them, or correct the years")
                    yield Finding(_years_of(unit, after), told, todo)


def _wrong(before: Borne, after: Borne) -> str:
    """Why one number cannot come after another on the same plate; empty where it can."""
    begun, ended = before.typed.borne
    begins, ends = after.typed.borne
    on, until = _("from {} on"), _("until {}")
    for year, mine in ((begins, on), (ends, until)):
        for earlier, its in ((ended, until), (begun, on)):
            if year and earlier and year < earlier:
                return _("{after} after {before}: {mine}, and the one before it {its}").format(
                    after=after.typed.serial,
                    before=before.typed.serial,
                    mine=mine.format(year),
                    its=its.format(earlier),
                )
    return ""


def _years_of(unit: Unit, borne: Borne) -> Place:
    at = ("numbers", unit.numbers.index(borne.typed))
    return unit.origin.place(*at, "years") if borne.typed.years else unit.origin.place(*at)


APART = 2  # years: an engine built in December may leave in a frame of the next year


def _disagree(register: Register) -> Iterator[Finding]:
    for unit, borne in register.units.numbers.items():
        for one in borne:
            issued, (first, last) = _issued(one), one.typed.borne
            if issued and ((first or issued[0]) < issued[0] or (last or issued[0]) < issued[0]):
                ended = first if first and first < issued[0] else last
                told = _("{serial} borne in {ended}, and issued in {issued} at the earliest").format(
                    serial=one.typed.serial, ended=ended, issued=issued[0]
                )
                yield Finding(_years_of(unit, one), told, _("correct the number or the years"))
        built = first_of_plates(one.number for one in borne)
        dated = [(one, issued) for one in borne if one.number in built and (issued := _issued(one))]
        for (one, early), (other, late) in combinations(sorted(dated, key=lambda pair: pair[1][0]), 2):
            if early[1] is not None and late[0] - early[1] >= APART and other.typed.borne[0] is None:
                told = _(
                    "{serial}, issued in {late} at the earliest, beside {other}, issued in {early} "
                    "at the latest"
                ).format(serial=other.typed.serial, late=late[0], other=one.typed.serial, early=early[1])
                todo = _("say under years since when it bears the later one, or correct a number")
                yield Finding(_years_of(unit, other), told, todo)


def _issued(one: Borne) -> tuple[int, int | None] | None:
    """The first and the last year in which a number may have been issued; None where nothing dates it."""
    years = one.number.series.years.year_of(one.number.number)
    return (years.first, years.last) if years else None


def _no_plate(register: Register) -> Iterator[Finding]:
    # A series in a machine's record that could not be read may have the plate.
    if register.unread.by_sort.get("series"):
        return
    plates = {series.plate.casefold() for series in register.series.values()}
    for position in register.positions.values():
        above = register.positions[position.above].follows if position.above else None
        follows = position.follows
        if follows and follows != above and follows.casefold() not in plates:
            record = register.things["position"][position.path]
            at = next(steps for steps, _, name in ids_inside(record) if name == position.path)
            told = _("{path} follows {follows}, a plate of no series").format(
                path=position.path, follows=follows
            )
            todo = _("name one of {}").format(", ".join(sorted(plates)))
            yield Finding(record.origin.place(*at[:-1], "follows"), told, todo)


CHECKS = (
    Check(NUMBER_UNKNOWN, _unknown),
    Check(NUMBER_UNCLEAR, _unclear),
    Check(NUMBER_ELSEWHERE, _elsewhere),
    Check(NUMBER_TWICE, _twice),
    Check(YEARS_BACKWARDS, _backwards),
    Check(PLATES_DISAGREE, _disagree),
    Check(FOLLOWS_NOTHING, _no_plate),
)
