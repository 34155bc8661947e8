"""The years that a number may be of."""

from __future__ import annotations

from spanbook.ground.years import Part, Years


def years_words(years: Years, part: Part | None = None) -> str:
    """The years that a number may be of, and where in the one that it is of: `1933, early by its number`."""
    place = f", {part} by its number" if part else ""
    if years.last is None:
        return f"{years.first} or later"
    return f"{years.first}{place}" if years.first == years.last else f"{years.first} to {years.last}"
