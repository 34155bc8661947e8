"""Years whose first number is not known exactly, held to every table that they may be."""

from __future__ import annotations

from itertools import product

import pytest

from spanbook.ground.years import YearTable
from spanbook.reading.records import Series
from spanbook.register.link import build
from spanbook.wording.series import begins_again, issued_again, plant_words, year_words, years_begin
from spanbook.wording.years import years_words
from tests.support.registers import record
from tests.support.rows import each_row

LAST = 20
FIRSTS = ["5", "[4, 7]", "about 6 ± 2", "before 8", "after 5", "XA 5", "[XA 4, 7]"]
MAY_BE = {
    "5": range(5, 6),
    "[4, 7]": range(4, 8),
    "about 6 ± 2": range(4, 9),
    "before 8": range(1, 8),
    "after 5": range(6, LAST + 1),
    "XA 5": range(5, 6),
    "[XA 4, 7]": range(4, 8),
}


def series(fields: str) -> Series:
    text = (
        f"kind: machine\nid: x\ntitle: X\nmaker: Example Works\nseries:\n- {{id: xa, plate: p, {fields}}}\n"
    )
    return build([record(text, "machine", "x")]).series["xa"]


@each_row("third", ["14", "[12, 15]", "after 12"])
@each_row("second", FIRSTS)
def test_a_number_may_be_of_the_years_that_some_table_gives_it(second: str, third: str) -> None:
    years = f"{{1931: 1, 1932: {second}, 1933: {third}}}"
    dated = series(f'stamped: "XA {{number}}", first: 1, last: {LAST}, years: {years}').years
    thirds = {"14": range(14, 15), "[12, 15]": range(12, 16), "after 12": range(13, LAST + 1)}[third]
    tables = [YearTable.of({1931: 1, 1932: b, 1933: c}) for b, c in product(MAY_BE[second], thirds) if b <= c]
    for number in range(1, LAST + 1):
        told = [table.year_of(number) for table in tables]
        found = dated.year_of(number)
        assert found is not None
        assert found.first == min(one.first for one in told if one)
        lasts = [one.last for one in told if one]
        assert found.last == (None if None in lasts else max(last for last in lasts if last))


def test_before_the_first_year_that_is_not_sure_nothing_is_dated() -> None:
    dated = series('stamped: "XA {number}", first: 1, last: 20, years: {1931: [3, 6], 1932: 12}').years
    assert [dated.year_of(number) is None for number in (1, 3, 5, 6)] == [True, True, True, False]


def test_the_third_of_a_year_is_not_told_where_the_year_is_not_sure() -> None:
    sure = series('stamped: "XA {number}", first: 1, last: 200, years: {1931: 1, 1932: 100}').years
    unsure = series('stamped: "XA {number}", first: 1, last: 200, years: {1931: 1, 1932: [99, 100]}').years
    assert sure.part_of(5) is not None
    assert unsure.part_of(5) is None


YEARLY = (
    'stamped: "{plant}{number}{issue}/{year:2}", restarts: year, first: N1/24, last: N9/25, '
    "years: {1924: 1, 1925: 1}, years-last: {1924: 40}, "
    "second-issues: [{mark: A, numbers: [[N7/24, N7/24]]}], "
    "plants: [{name: North, letter: N, numbers: [[N1/24, N20/24]]}, "
    "{name: South, letter: S, numbers: [[S21/24, S40/24]], note: Closed in 1930}]"
)


def test_a_year_on_the_plate_is_the_year() -> None:
    made = series(YEARLY)
    place = made.stamp.read("N7A/24")
    assert place is not None
    assert made.years.year_of(place) == made.years.year_of(place - 1)
    assert made.stamp.show(place - 1) == "N7/24"
    assert made.stamp.show(place + 1) == "N8/24"
    later = made.stamp.read("?9/25")
    assert later is not None
    found = made.years.year_of(later)
    assert found is not None
    assert (found.first, found.last) == (1925, 1925)
    assert made.issued.count() == 40 + 1 + 9


def test_how_a_series_of_several_parts_is_told() -> None:
    made = series(YEARLY)
    assert begins_again(made) == "Every year the number begins again."
    assert issued_again(made) == "N7A/24"
    assert [plant_words(made, *one) for one in made.order.plants] == [
        ("North, stamped N", "N1/24 to N20/24"),
        ("South, stamped S", "S21/24 to S40/24. Closed in 1930."),
    ]
    firsts = dict(zip(made.years.years, made.years.firsts, strict=True))
    assert year_words(made, 1924, firsts[1924], firsts[1925] - 1) == "N1/24 to S40/24"
    plain = series('stamped: "XA {number}", first: 1, last: 20, years: {1931: 1, 1932: before 8}')
    assert begins_again(plain) is issued_again(plain) is None
    assert year_words(plain, 1932, 1, None) == "from a number before XA 8"


@pytest.mark.parametrize(
    ("begin", "calendar", "said"),
    [
        ("August before", (1931, 1932), "1932 by the works' year (August 1931 to July 1932)"),
        ("April", (1932, 1933), "1932 by the works' year (April 1932 to March 1933)"),
    ],
)
def test_a_works_year_that_begins_in_another_month_lies_in_two_of_the_calendar(
    begin: str, calendar: tuple[int, int], said: str
) -> None:
    years = f"years: {{1931: 1, 1932: 8, 1933: 12}}, years-begin: {begin}"
    made = series(f'stamped: "XA {{number}}", first: 1, last: 20, {years}')
    found, last = made.years.year_of(9), made.years.year_of(15)
    assert found is not None
    assert last is not None
    assert (found.first, found.last) == calendar
    assert years_words(found) == said
    assert last.last is None
    assert years_words(last).startswith("1933 or later by the works' years (from ")
    over = made.years.span_of(2, 9)
    assert over is not None
    assert over.works is not None
    assert (over.works.first, over.works.last) == (1931, 1932)
    assert made.years.part_of(9) is None
    assert str(years_begin(made)).startswith(f"The works' years began in {begin.split()[0]}")
