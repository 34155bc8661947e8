"""How series are stamped where there is more to it than a number, and numbers typed as they are stamped."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.language import ngettext
from spanbook.ground.running_order import MOST_FORMS
from spanbook.ground.stamped import BY_LETTER, Part, What
from spanbook.reading import uncertain
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Machine, Record, Series, Typed
from spanbook.reading.series_order import MOST_SECONDS
from spanbook.reading.series_typed import numbers_of
from spanbook.register.model import Register
from spanbook.rules.check import Check
from spanbook.rules.spans import spans_of

_FILE = (
    "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Example Works\nseries:\n"
)
_GOOD = _FILE + (
    '- {id: za, stamped: "{plant}{number}/{year:2}", restarts: year, plate: machine, first: A1/24, '
    "last: B80/25, years: {1924: 1, 1925: 1}, years-last: {1924: 90}, evidence: [{source: book}],\n"
    "   plants: [{name: North, letter: A}, {name: South, letter: B, numbers: [[B51/24, B90/24]]}]}\n"
)

STAMP_AMISS = Rule(
    "stamp-amiss",
    Severity.ERROR,
    "What a stamp has beside its number is told in the record, or the numbers have no order.",
    bad=_GOOD.replace("restarts: year", "restarts: week"),
    good=_GOOD,
)
NUMBER_UNREAD = Rule(
    "number-unread",
    Severity.ERROR,
    "A number typed as stamped reads as one of its series; else nobody knows which is meant.",
    bad=_GOOD.replace("last: B80/25", "last: B80/31"),
    good=_GOOD,
)


def _each_series(register: Register) -> Iterator[tuple[Machine, int, Series]]:
    for machine in register.machines.values():
        for i, series in machine.places:
            yield machine, i, series


def _amiss(register: Register) -> Iterator[Finding]:
    for machine, i, series in _each_series(register):
        for key, read, todo in _faults(series):
            yield Finding(machine.origin.place("series", i, key), read, todo)


def _faults(series: Series) -> Iterator[tuple[str, str, str]]:
    """The key at fault, what was read, and what to do."""
    has = series.stamped.has
    if series.restarts and not series.order.restarts:
        wanted = What.YEAR if has(What(series.restarts)) else series.restarts
        read = _("numbers that begin again, in a stamp without {{{}}}").format(wanted)
        yield "restarts", read, _("add it to the stamp, or take restarts away")
    if has(What.YEAR) and not series.years_as_typed:
        todo = _("list each year of the series with its first number")
        yield "stamped", _("a stamp with a year, in a series without years"), todo
    for key, what, listed in (
        ("plants", What.PLANT, bool(series.plants)),
        ("second-issues", What.ISSUE, bool(series.second_issues)),
    ):
        if has(what) and not listed:
            yield (
                "stamped",
                _("a stamp with {{{what}}}, and no {key}").format(what=what, key=key),
                _("add {key}, or take {{{what}}} away").format(key=key, what=what),
            )
    if series.second_issues and not has(What.ISSUE):
        yield (
            "second-issues",
            _("second issues in a stamp without {issue}"),
            _("say in it where their mark stands"),
        )
    again = sum(len(block.seconds) for block in series.order.blocks)
    if again > MOST_SECONDS:
        read = ngettext("{} number that was issued again", "{} numbers that were issued again", again).format(
            again
        )
        yield (
            "second-issues",
            read,
            _("more than {} of them are recorded as a series of their own").format(MOST_SECONDS),
        )
    if series.order.size > MOST_FORMS:
        read = _("a stamp of {} forms").format(series.order.size)
        yield "stamped", read, _("leave out a part that may say anything at every number")
    yield from _letters(series)


def _letters(series: Series) -> Iterator[tuple[str, str, str]]:
    """What is amiss with the letters of plants and years."""
    if series.stamped.has(What.PLANT) and any(plant.letter is None for plant in series.plants):
        yield "plants", _("a plant without its letter"), _("add the letter that its stamps have")
    letters = Counter(plant.letter for plant in series.plants if plant.letter)
    for letter, count in letters.items():
        if count > 1:
            yield (
                "plants",
                ngettext(
                    "{count} plant with the letter {letter}", "{count} plants with the letter {letter}", count
                ).format(count=count, letter=letter),
                _("correct the letters"),
            )
    if Part(What.YEAR, BY_LETTER) not in series.stamped.pieces:
        return
    of_years = dict(series.year_letters)
    for year, __ in series.years_as_typed:
        stands = of_years.get(year)
        if stands is None:
            yield (
                "year-letters",
                _("no letter for {}, which the stamp tells by one").format(year),
                _("add its letter"),
            )
        elif {*stands} & {*(series.letters_left_out or "")}:
            yield (
                "year-letters",
                _("{stands} for {year}, which is left out").format(stands=stands, year=year),
                _("correct one of the two"),
            )


def _unread(register: Register) -> Iterator[Finding]:
    for machine, i, series in _each_series(register):
        for steps, typed in _own(series):
            if series.order.place(typed) is None:
                yield _finding(machine, ("series", i, *steps), typed, series)
    for record, at, span, series in spans_of(register):
        for end in ("first", "last"):
            for typed in numbers_of(span.first if end == "first" else span.last):
                if series.order.place(typed) is None:
                    yield _finding(record, (*at, end), typed, series)


def _own(series: Series) -> Iterator[tuple[tuple[Step, ...], Typed]]:
    """Every number that the record of a series has, with where it stands."""
    yield ("first",), series.first_as_typed
    if series.last_as_typed is not None:
        yield ("last",), series.last_as_typed
    for i, pair in enumerate(series.skipped_as_typed):
        yield from ((("skipped", i), end) for end in pair)
    runs = [(("plants", i), one.numbers) for i, one in enumerate(series.plants)]
    runs += [(("second-issues", i), one.numbers) for i, one in enumerate(series.second_issues)]
    for at, numbers in runs:
        for j, pair in enumerate(numbers):
            yield from (((*at, "numbers", j), end) for end in pair)
    # In a year's table the number of that year stands alone.
    alone = series.order.restarts == "year"
    for year, first in series.years_as_typed:
        yield from (
            (("years", str(year)), end) for end in numbers_of(first) if not (alone and isinstance(end, int))
        )
    for year, last in series.years_last:
        if not (alone and isinstance(last, int)):
            yield ("years-last", str(year)), last


def _finding(record: Record, at: tuple[Step, ...], typed: Typed, series: Series) -> Finding:
    """That something typed is no number of a series, and how one is typed."""
    read = _("{typed}, which is no number of the series {id}").format(typed=typed, id=series.id)
    if len(series.stamp.readings(str(typed))) > 1:
        read = _("{typed}, which reads as several numbers of the series {id}").format(
            typed=typed, id=series.id
        )
    first = series.stamp.show(series.first)
    like = (
        _("write the number as the plate has it, for example {first}")
        if series.order.restarts
        else _("write the number alone, {number}, or the number as the plate has it, for example {first}")
    )
    todo = uncertain.todo(typed) or like.format(number=series.first_as_typed, first=first)
    return Finding(record.origin.place(*at), read, todo)


CHECKS = (Check(STAMP_AMISS, _amiss), Check(NUMBER_UNREAD, _unread))
