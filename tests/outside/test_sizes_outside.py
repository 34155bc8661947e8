"""Sizes held against the definition of the inch and a published reference library."""

from __future__ import annotations

import csv
import re
from fractions import Fraction
from pathlib import Path

import pytest

from spanbook.ground.measures import read_inches, to_mm

ROWS = list(
    csv.DictReader((Path(__file__).parent / "data/07a_inch_mm.csv").open(encoding="utf-8", newline=""))
)
_REMARK = re.compile(r"\s*\((?:U\+.*|workshop style)\)| = .*")


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["text"])
def test_a_size_reads_exactly(row: dict[str, str]) -> None:
    """International yard and pound agreement (1959): 1 in = 25.4 mm exactly; values agree with PyPI
    pint 0.25.3 (BSD)."""
    inches = read_inches(_REMARK.sub("", row["text"]))
    assert inches == Fraction(row["exact_inch"])
    assert abs(to_mm(inches, "in") - Fraction(row["mm"])) <= Fraction("0.00005")
