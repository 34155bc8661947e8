"""Sizes in words; their values are checked in `outside/`."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.measures import Written, agree, both_ways, read, ucum
from tests.support.rows import each_row


@each_row(
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
        ("2", "pint", "2 pint"),  # nobody says whose
        ("2", "imp pint", "2 imp pint (1.1 litre)"),
        ("2", "US pint", "2 US pint (0.95 litre)"),
        ("12", "oz", "12 oz (340 g)"),
        ("3", "cwt", "3 cwt (150 kg)"),
        ("25", "lbf·ft", "25 lbf·ft (34 N·m)"),
        ("1 1/2", "turns", "1 1/2 turns"),
        ("18", "teeth", "18 teeth"),
        ("4 3/4", "oz", "4 3/4 oz (135 g)"),  # of a length a fraction is a name; else it was read so finely
        ("1 1/2", "imp pint", "1 1/2 imp pint (0.85 litre)"),
        ("1/2", "lb", "1/2 lb (0.23 kg)"),
        ("22 1/2", "lbf·ft", "22 1/2 lbf·ft (30.5 N·m)"),
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


@each_row(
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
        (("30", "psi"), ("2", "bar"), True),  # 30 psi are 2.07 bar, and that was read to one
        (("30", "psi"), ("2.00", "bar"), False),
        (("0.002", "in", "0.004"), ("0.003", "in"), True),  # from one value to another, any may be
        (("0.002", "in", "0.004"), ("0.006", "in"), False),
        (("0.002", "in", "0.004"), ("0.08", "mm", "0.20"), True),
    ],
)
def test_sizes_agree_to_what_both_were_read_to(
    one: tuple[str, str] | tuple[str, str, str], other: tuple[str, str] | tuple[str, str, str], same: bool
) -> None:
    assert agree(Written(*one), Written(*other)) is same
    assert agree(Written(*other), Written(*one)) is same


@pytest.mark.parametrize(
    ("value", "unit", "code"),
    [
        ("3 1/8", "in", "3.125 [in_i]"),
        ("1/3", "in", "0.333333333333 [in_i]"),
        ("25", "lbf·ft", "25 [lbf_av].[ft_i]"),
        ("11", "teeth", "11 {teeth}"),
        ("2", "pint", None),
    ],
)
def test_as_programs_read_it(value: str, unit: str, code: str | None) -> None:
    assert ucum(value, unit) == code


def test_below_nothing() -> None:
    assert read("-1/8") == Fraction(-1, 8)
    assert read("-1 1/8") == Fraction(-9, 8)
    assert both_ways("-1/8", "in") == "-1/8 in (−3.175 mm)"
    assert both_ways("-0.001", "mm") == "-0.001 mm (−0.000039 in)"
