from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.readings import written
from tests.support.rows import each_row

INCH = Fraction(254, 10)


@each_row(
    ("text", "mm"),
    [
        ('1-1/2"', INCH * 3 / 2),
        ("2 3/8 in", INCH * 19 / 8),
        ("1.1/2 in.", INCH * 3 / 2),
        ("⅞ inch", INCH * 7 / 8),
        ('.003"', INCH * 3 / 1000),
        ("3 thou", INCH * 3 / 1000),
        ("40 mil", INCH * 40 / 1000),
        ("10 micron", Fraction(1, 100)),
        ("10 mics", Fraction(1, 100)),
        ("10 \u00b5m", Fraction(1, 100)),
        ("10 \u03bcm", Fraction(1, 100)),
        ("7.9 mm", Fraction(79, 10)),
        ("2 CM", Fraction(20)),
    ],
)
def test_sizes_as_people_write_them(text: str, mm: Fraction) -> None:
    (read,) = written(text)
    assert read.low == read.high == mm


def test_between_two_sizes() -> None:
    (read,) = written("12 to 13.5 mm")
    assert [read.low, read.high, read.step] == [Fraction(12), Fraction(27, 2), Fraction(1)]


@pytest.mark.parametrize("text", ["17x40x12 mm", "17 × 40 × 12mm", "17 by 40 by 12 mm", "17mm x 40mm x 12mm"])
def test_several_sizes_in_one_text(text: str) -> None:
    assert [read.low for read in written(text)] == [17, 40, 12]


def test_a_decimal_is_read_to_its_last_place_and_a_fraction_finer() -> None:
    assert written("7.90 mm")[0].step == Fraction(1, 100)
    assert written("8 mm")[0].step == 1
    assert written("5/16 in")[0].step == INCH / 32
    assert written("5/64 in")[0].step == INCH / 64


@each_row(
    ("text", "says"),
    [
        ("5/16", "has no unit"),
        ("wide", "is no size"),
        ("", "is no size"),
        ("3 furlongs", "is no unit of length"),
        ("1/0 in", "is no size"),
        ("13 to 12 mm", "write the lower size first"),
        ("0 mm", "write the lower size first"),
        ("1 to 2 to 3 mm", "more than two ends"),
    ],
)
def test_what_is_no_size_is_told(text: str, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        written(text)


@given(st.integers(1, 999), st.integers(0, 999))
def test_a_decimal_reads_as_itself(whole: int, thousandths: int) -> None:
    (read,) = written(f"{whole}.{thousandths:03} mm")
    assert read.low == whole + Fraction(thousandths, 1000)


@pytest.mark.slow
@given(st.text(max_size=20))
def test_any_text_is_a_size_or_says_why_not(text: str) -> None:
    try:
        found = written(text)
    except ValueError as why:
        found, told = (), str(why)
        assert told
    assert all(0 < read.low <= read.high for read in found)
