"""Sizes in words; their values are checked in `outside/`."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.measures import agree, both_ways, read


@pytest.mark.parametrize(
    ("value", "unit", "told"),
    [
        ("3 1/8", "in", "3 1/8 in (79.375 mm)"),
        ("1⅛", "in", "1⅛ in (28.575 mm)"),
        ("1/3", "in", "1/3 in (8.466667 mm)"),
        ("0.875", "in", "0.875 in (22.22 mm)"),
        ("10", "mm", "10 mm (0.39 in)"),
        ("1", "thou", "1 thou (0.025 mm)"),
        ("25", "µm", "25 µm (0.98 thou)"),
        ("66", "in", "66 in (1680 mm)"),
        ("0.05", "mm", "0.05 mm (0.0020 in)"),
        ("0", "mm", "0 mm (0 in)"),
        ("25", "psi", "25 psi (1.72 bar)"),
        ("2", "pint", "2 pint"),
        ("-5", "thou", "-5 thou (−0.13 mm)"),
    ],
)
def test_told_both_ways(value: str, unit: str, told: str) -> None:
    assert both_ways(value, unit) == told


@given(st.fractions(min_value=0, max_value=100, max_denominator=64))
def test_mixed_fractions_read_exactly(value: Fraction) -> None:
    whole, rest = divmod(value, 1)
    assert read(f"{whole} {rest.numerator}/{rest.denominator}") == value


@pytest.mark.parametrize("text", ["", "one", "1/0", "1//2", "0x10", "1e3"])
def test_other_texts_are_refused(text: str) -> None:
    with pytest.raises(ValueError, match="neither"):
        read(text)


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        (("0.875", "in"), ("0.874", "in"), True),  # each read to a thousandth: half a step either way
        (("0.875", "in"), ("0.873", "in"), False),
        (("7/8", "in"), ("22.2", "mm"), True),
        (("7/8", "in"), ("20.6", "mm"), True),  # an eighth is as fine as it was read
        (("7/8", "in"), ("20.5", "mm"), False),
        (("3 1/8", "in"), ("79", "mm"), True),
        (("12", "mm"), ("12", "kg"), False),
        (("30", "psi"), ("30", "psi"), True),
        (("30", "psi"), ("2", "bar"), False),  # pressures are compared in one unit only
    ],
)
def test_sizes_agree_to_what_both_were_read_to(
    one: tuple[str, str], other: tuple[str, str], same: bool
) -> None:
    assert agree(one, other) is same
    assert agree(other, one) is same


def test_below_nothing() -> None:
    assert read("-1/8") == Fraction(-1, 8)
    assert read("-1 1/8") == Fraction(-9, 8)
    assert both_ways("-1/8", "in") == "-1/8 in (−3.175 mm)"
    assert both_ways("-0.001", "mm") == "-0.001 mm (−0.000039 in)"
