"""Days of the calendar, in words."""

from __future__ import annotations

from datetime import date

from spanbook.ground.language import gettext as _
from spanbook.ground.years import MONTHS


def day_words(day: date) -> str:
    """`26 November 2026`."""
    return _("{day} {month} {year}").format(day=day.day, month=_(MONTHS[day.month - 1]), year=day.year)
