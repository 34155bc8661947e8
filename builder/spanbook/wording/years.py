"""The years that a number may be of."""

from __future__ import annotations

from spanbook.ground.years import MONTHS, Part, Works, Years
from spanbook.reading.basics import Around, Beside
from spanbook.reading.dated import YearSaid, between


def year_words(year: YearSaid | None) -> str:
    """A year as a record has it: 1936, between 1936 and 1938, about 1936 (1934 to 1938), before 1936.

    Empty for none.
    """
    match year:
        case None:
            return ""
        case (first, last):
            return f"between {first} and {last}"
        case Around():
            return "about {} ({} to {})".format(year.number, *between(year))
        case Beside():
            return f"{year.side} {year.number}"
        case _:
            return str(year)


def when_words(year: YearSaid) -> str:
    """In which year something was done: `in 1936`; where it is not one year, as `year_words` has it."""
    return f"in {year}" if isinstance(year, int) else year_words(year)


def years_words(years: Years, part: Part | None = None) -> str:
    """The years that a number may be of, and where in the one that it is of: `1933, early by its number`."""
    if years.works:
        return _works_words(years.works)
    place = f", {part} by its number" if part else ""
    return _between(years.first, years.last) + (place if years.first == years.last else "")


def _between(first: int, last: int | None) -> str:
    if last is None:
        return f"{first} or later"
    return str(first) if first == last else f"{first} to {last}"


def _works_words(works: Works) -> str:
    """The works' own years, and what they are by the calendar."""
    month, back = works.begin.month, int(works.begin.before)
    begins = f"{MONTHS[month - 1]} {works.first - back}"
    told = _between(works.first, works.last)
    if works.last is None:
        return f"{told} by the works' years (from {begins} on)"
    ends = f"{MONTHS[month - 2]} {works.last - back + 1}"
    years = "year" if works.first == works.last else "years"
    return f"{told} by the works' {years} ({begins} to {ends})"
