"""The years that a number may be of."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.years import MONTHS, Part, Works, Years
from spanbook.reading.basics import Around, Beside
from spanbook.reading.dated import YearSaid, between
from spanbook.wording.grammar import span_of

_BESIDE = {"before": marked("before {}"), "after": marked("after {}")}
_IN_ITS_YEAR = {
    Part.EARLY: marked("{}, early by its number"),
    Part.LATE: marked("{}, late by its number"),
}


def year_words(year: YearSaid | None) -> str:
    """A year as a record has it: 1936, between 1936 and 1938, about 1936 (1934 to 1938), before 1936.

    Empty for none.
    """
    match year:
        case None:
            return ""
        case (first, last):
            return _("between {first} and {last}").format(first=first, last=last)
        case Around():
            since, until = between(year)
            return _("about {year} ({first} to {last})").format(year=year.number, first=since, last=until)
        case Beside():
            return _(_BESIDE[year.side]).format(year.number)
        case _:
            return str(year)


def when_words(year: YearSaid) -> str:
    """In which year something was done: `in 1936`; where it is not one year, as `year_words` has it."""
    return _("in {}").format(year) if isinstance(year, int) else year_words(year)


def years_words(years: Years, part: Part | None = None) -> str:
    """The years that a number may be of, and where in the one that it is of: `1933, early by its number`."""
    if years.works:
        return _works_words(years.works)
    told = _between(years.first, years.last)
    return _(_IN_ITS_YEAR[part]).format(told) if part and years.first == years.last else told


def _between(first: int, last: int | None) -> str:
    if last is None:
        return _("{} or later").format(first)
    return span_of([str(first)] if first == last else [str(first), str(last)])


def _works_words(works: Works) -> str:
    """The works' own years, and what they are by the calendar."""
    month, back = works.begin.month, int(works.begin.before)
    begins = f"{_(MONTHS[month - 1])} {works.first - back}"
    told = _between(works.first, works.last)
    if works.last is None:
        return _("{years} by the works' years (from {begins} on)").format(years=told, begins=begins)
    ends = f"{_(MONTHS[month - 2])} {works.last - back + 1}"
    if works.first == works.last:
        one = _("{year} by the works' year ({begins} to {ends})")
        return one.format(year=told, begins=begins, ends=ends)
    more = _("{years} by the works' years ({begins} to {ends})")
    return more.format(years=told, begins=begins, ends=ends)
