"""Sizes held against the definition of the inch and a published reference library."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from spanbook.ground.measures import both_ways, converted, read, step
from tests.support.rows import each_row

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data/07a_inch_mm.csv").open(encoding="utf-8", newline=""))
)
_REMARK = re.compile(r"\s*\((?:U\+.*|workshop style)\)|\"| in\.")
# A record has a value and its unit apart; feet and inches in one value are no size that it can hold.
SIZES = [row for row in ROWS if "′" not in row["text"]]


@each_row("row", SIZES)
def test_a_size_reads_exactly_and_is_told_in_millimetres(row: dict[str, str]) -> None:
    """International yard and pound agreement (1959): 1 in = 25.4 mm exactly; values agree with PyPI
    pint 0.25.3 (BSD)."""
    value, _, unit = _REMARK.sub("", row["text"]).partition(" thou" if "thou" in row["text"] else " mil")
    unit = "thou" if row["text"] != value and ("thou" in row["text"] or "mil" in row["text"]) else "in"
    inches = read(value) / (1000 if unit == "thou" else 1)
    assert inches == Fraction(row["exact_inch"])
    told = both_ways(value, unit)
    assert told.startswith(f"{value} {unit} (")
    shown = Fraction(told.rpartition("(")[2].removesuffix(" mm)"))
    exact = inches * Fraction(254, 10)
    if "/" in row["text"] or any(c in row["text"] for c in "½¼¾⅛⅜⅝⅞"):
        assert shown == exact  # a fraction is exact
    assert abs(exact - Fraction(row["mm"])) <= Fraction(1, 20_000)
    told_to = step(value) * (Fraction(254, 10) if unit == "in" else Fraction(254, 10_000))
    assert abs(shown - exact) <= told_to / 2  # never coarser than it was read


@pytest.mark.parametrize(
    ("value", "factor", "told"),
    [
        ("11", "1.609344", "18"),  # miles to kilometres
        ("61", "1.609344", "98"),
        ("66", "1.609344", "106"),
        ("8", "28.34952", "230"),  # ounces to grams
        ("36", "0.3048", "11.0"),  # feet to metres: SP 811, appendix B.7
    ],
)
def test_converted_digits_are_those_of_a_published_rule(value: str, factor: str, told: str) -> None:
    """NIST Special Publications 1038 (2006), rounding, and 811 (2008), appendix B.7; rule and examples are
    from memory."""
    assert converted(value, Fraction(factor)) == told
