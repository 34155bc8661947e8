"""The years that a number may be of."""

from __future__ import annotations

from spanbook.ground.years import MONTHS, Part, Works, Years


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
