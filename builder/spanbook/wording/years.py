"""The years that a number may be of."""

from __future__ import annotations

from spanbook.ground.years import Years


def years_words(years: Years) -> str:
    if years.last is None:
        return f"{years.first} or later"
    return str(years.first) if years.first == years.last else f"{years.first} to {years.last}"
