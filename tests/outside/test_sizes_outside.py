"""Sizes held against the definition of the inch and a published reference library."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from spanbook.ground.measures import both_ways, read

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data/07a_inch_mm.csv").open(encoding="utf-8", newline=""))
)
_REMARK = re.compile(r"\s*\((?:U\+.*|workshop style)\)|\"| in\.")
# A record has a value and its unit apart; feet and inches in one value are no size that it can hold.
SIZES = [row for row in ROWS if "′" not in row["text"]]


@pytest.mark.parametrize("row", SIZES, ids=lambda row: row["text"])
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
    assert abs(shown - Fraction(row["mm"])) <= Fraction("0.0051")
