"""Stamps held against what others say of weeks and of letters."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from spanbook.ground.running_order import Layout, Restarts
from spanbook.ground.stamped import Letters, Stamped, What, weeks_in

# ISO 3779, Road vehicles: its numbers have the digits and all capital letters but I, O and Q; so quoted by
# the page on VIN of the wiki of BWIPP (github.com/bwipp/postscriptbarcode). The standard was not at hand.
ISO_3779_LETTERS = "ABCDEFGHJKLMNPRSTUVWXYZ"
# Years with 53 weeks by ISO 8601: those that begin on a Thursday, and leap years that begin on a Wednesday.
# The list for 1900 to 1960 is from memory; Python's own calendar is asked below.
LONG_YEARS = [1903, 1908, 1914, 1920, 1925, 1931, 1936, 1942, 1948, 1953, 1959]


def test_the_letters_left_out_leave_those_of_iso_3779() -> None:
    assert Letters("IOQ").running == ISO_3779_LETTERS
    stamp = Layout(Stamped.of("{letter}{number:3}"), (), Restarts.LETTER, 999, Letters("IOQ")).stamp()
    places = [stamp.read(f"{letter}001") for letter in ISO_3779_LETTERS]
    assert None not in places
    assert places == sorted(places, key=lambda place: place or 0)
    assert [stamp.read(f"{letter}001") for letter in "IOQ"] == [None, None, None]


def test_years_of_53_weeks() -> None:
    assert [year for year in range(1900, 1961) if weeks_in(year) == 53] == LONG_YEARS


@pytest.mark.parametrize("first", [1900, 1926, 1969, 1999, 2020])
def test_every_day_of_seven_years_has_the_block_of_its_week(first: int) -> None:
    """Python's date.isocalendar, as an independent reader of ISO 8601: days in order, blocks in order."""
    years = tuple(range(first, first + 7))
    layout = Layout(Stamped.of("{year}-W{week:2}-{number:3}"), years, Restarts.WEEK, 999)
    stamp, blocks = layout.stamp(), layout.blocks()
    weeks = dict[tuple[int, int], None]()
    day = date.fromisocalendar(first, 1, 1)
    while (calendar := day.isocalendar()).year in years:
        weeks[calendar.year, calendar.week] = None
        day += timedelta(days=1)
    places = [stamp.read(f"{year}-W{week:02}-001") for year, week in weeks]
    assert None not in places
    assert places == sorted(set(places), key=lambda place: place or 0)
    assert list(weeks) == [(block.values[What.YEAR], block.values[What.WEEK]) for block in blocks]
    for year in years:
        beyond = weeks_in(year) + 1
        assert stamp.read(f"{year}-W{beyond:02}-001") is None
