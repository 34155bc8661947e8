"""Stamps of several parts: what their record must say, and numbers typed as stamped that do not read."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.rows import each_row

HEAD = (
    "# file: content/machines/z-one.yml\nkind: machine\nid: z-one\ntitle: Z\nmaker: Example Works\nseries:\n"
)


def series(stamped: str, **fields: str) -> str:
    """A machine of one series, each field on a line of its own in this order."""
    held = {"restarts": "", "first": "1/24", "last": "9/25", "years": "{1924: 1, 1925: 1}"} | fields
    lines = [f"- {{id: za, stamped: '{stamped}', plate: machine, evidence: [{{source: book}}],"]
    lines += [f"   {key.replace('_', '-')}: {value}," for key, value in held.items() if value]
    return HEAD + "\n".join(lines) + "}\n"


YEARS = ", ".join(f"{year}: {year - 1899}" for year in range(1900, 1940))
YEARLY = "{number}/{year:2}"
TOLD = {
    "sound": (series(YEARLY, restarts="year", years_last="{1924: 90}"), []),
    "begins again with what the stamp lacks": (
        series(YEARLY, restarts="letter"),
        [("stamp-amiss", 7, "numbers that begin again, in a stamp without {letter}")],
    ),
    "a week without its year": (
        series("{week}-{number}", restarts="week", first="1", last="9"),
        [("stamp-amiss", 7, "numbers that begin again, in a stamp without {year}")],
    ),
    "a year without years": (
        series(YEARLY, first="1", last="9", years=""),
        [("stamp-amiss", 6, "a stamp with a year, in a series without years")],
    ),
    "a plant of none": (
        series("{plant}{number}", first="1", last="9"),
        [("stamp-amiss", 6, "a stamp with {plant}, and no plants")],
    ),
    "a plant without a letter": (
        series("{plant}{number}", first="1", last="9", plants="[{name: N, letter: N}, {name: S}]"),
        [("stamp-amiss", 10, "a plant without its letter")],
    ),
    "two plants with one letter": (
        series("{plant}{number}", first="1", last="9", plants="[{name: N, letter: N}, {name: S, letter: N}]"),
        [("stamp-amiss", 10, "2 plants with the letter N")],
    ),
    "a mark with no numbers": (
        series("{number}{issue}", first="1", last="9"),
        [("stamp-amiss", 6, "a stamp with {issue}, and no second-issues")],
    ),
    "a second issue that the stamp does not tell": (
        series("{number}", first="1", last="9", second_issues="[{mark: A, numbers: [[3, 4]]}]"),
        [("stamp-amiss", 10, "second issues in a stamp without {issue}")],
    ),
    "far too many second issues": (
        series("{number}{issue}", first="1", last="900", second_issues="[{mark: A, numbers: [[1, 800]]}]"),
        [("stamp-amiss", 10, "501 numbers that were issued again")],
    ),
    "a year without its letter, and one with a letter left out": (
        series(
            "{year:letter}{number}",
            restarts="year",
            first="A1",
            last="unknown",
            years="{1924: 1, 1925: 1, 1926: 1}",
            letters_left_out="IOQ",
            year_letters="{1924: A, 1926: I}",
        ),
        [
            ("stamp-amiss", 12, "no letter for 1925, which the stamp tells by one"),
            ("stamp-amiss", 12, "I for 1926, which is left out"),
        ],
    ),
    "a month of every number": (
        series(
            "{plant}{letter}{month}-{week}-{number}/{year}",
            first="1",
            last="unknown",
            years=f"{{{YEARS}}}",
            plants="[{name: N, letter: N}]",
        ),
        [("stamp-amiss", 6, "a stamp of 27119040 forms")],
    ),
    "numbers of another year, another letter, and none": (
        series(YEARLY, restarts="year", first="1/23", last="9/25", skipped="[[3/25, X4/25]]"),
        [
            ("number-unread", 8, "1/23, which is no number of the series za"),
            ("number-unread", 11, "X4/25, which is no number of the series za"),
        ],
    ),
    "a number of the first of two years with one letter": (
        series("{number}{year:1}", restarts="year", first="15", last="95", years="{1925: 1, 1935: 1}"),
        [
            ("number-unread", 8, "15, which reads as several numbers of the series za"),
            ("number-unread", 9, "95, which reads as several numbers of the series za"),
        ],
    ),
    "a range for a number": (
        series("{number}", first="1", last="9", years="{1924: 1-2A}"),
        [("number-unread", 9, "1-2A, which is no number of the series za")],
    ),
    "the last number of a year before its first": (
        series(YEARLY, restarts="year", years="{1924: 4, 1925: 1}", first="4/24", years_last="{1924: 3}"),
        [("year-last-amiss", 11, "1924 ends at 3/24, and begins at 4/24")],
    ),
    "a series run backwards over years": (
        series(YEARLY, restarts="year", first="9/25", last="1/24"),
        [
            ("series-reversed", 8, "a series from 9/25 back to 1/24"),
            ("year-out-of-series", 10, "1924 begins at 1/24, outside the series"),
            ("year-out-of-series", 10, "1925 begins at 1/25, outside the series"),
        ],
    ),
}


@each_row(("world", "told"), TOLD.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)


LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n"
)


@pytest.mark.parametrize(
    ("first", "todo"),
    [
        ("XB 3", "write the number alone, 1, or the number as the plate has it, for example XA 1"),
        ("3A-4", "write the number alone, 1, or the number as the plate has it, for example XA 1"),
        ("about XB 3 ± 2", "write the number alone, 1, or the number as the plate has it, for example XA 1"),
    ],
)
def test_a_number_as_stamped_that_is_none_is_told_with_what_to_write(
    first: str, todo: str, tmp_path: Path
) -> None:
    world = LID + f"- {{series: xa, first: {first}, last: 20, evidence: [{{source: book}}]}}\n"
    problems = [one for one in worlds.check(tmp_path, world).problems if one.name == "number-unread"]
    assert [one.todo for one in problems] == [todo]


LETTERS = (
    "# file: content/machines/x-two.yml\nkind: machine\nid: x-two\ntitle: X\nmaker: X\nseries:\n"
    '- {id: xl, stamped: "{letter}{number}", restarts: letter, most: 30, skipped: [[A12, A13]], '
    "plate: machine, first: A1, last: C20, evidence: [{source: book}]}\n"
)


@pytest.mark.parametrize(
    ("first", "told"),
    [("A31", ["A31"]), ("[A30, A31]", ["A31"]), ("A30", []), ("A13", []), ("B1", []), ("C20", [])],
)
def test_a_number_past_the_highest_of_its_letter_is_told(first: str, told: list[str], tmp_path: Path) -> None:
    """It would stand for the next letter's first, which nobody wrote."""
    span = f"- {{series: xl, first: {first}, last: C20, evidence: [{{source: book}}]}}\n"
    found = worlds.check(tmp_path, LETTERS, LID + span).problems
    assert [one.read for one in found if one.name == "span-out-of-series"] == [
        f"first {number}, a number that the series xl never came to" for number in told
    ]


@pytest.mark.parametrize("first", ["XA 3", "XA-3", "XA.03", "about XA 3 ± 2", "[XA 3, 5]", "[3, XA 5]"])
def test_a_number_may_be_typed_as_stamped_wherever_one_is_typed(first: str, tmp_path: Path) -> None:
    world = LID + f"- {{series: xa, first: {first}, last: XA 20, evidence: [{{source: book}}]}}\n"
    assert worlds.told(tmp_path, world) == []
