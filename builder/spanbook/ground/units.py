"""Units as the trade writes them, each with its code in UCUM and its exact size in the base of its sort.

1 in = 25.4 mm and 1 lb = 0.45359237 kg (international yard and pound agreement, 1959); standard gravity is
9.80665 m/s² (NIST Special Publication 811, appendix B); the imperial gallon is 4.54609 litres (Weights and
Measures Act 1985, schedule 1), that of the United States 231 in³ (NIST Handbook 44, appendix C); from memory.
The codes, and these sizes, are held against the tables that UCUM publishes (tests/outside).

A pint, or a gallon, is a fifth larger in one country than in the other: `pint` alone does not say whose, is
told in nothing else and has no code.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked


class Quantity(StrEnum):
    """What a unit measures, with the base that its size is given in."""

    LENGTH = "mm"
    MASS = "kg"
    PRESSURE = "bar"
    VOLUME = "litre"
    TORQUE = "N·m"
    FORCE = "N"
    SPRING_RATE = "N/mm"
    ANGLE = "degree"
    RESISTANCE = "ohm"
    SPEED = "rpm"
    FLOW = "litre/min"
    WARMTH = "°C"
    TENSION = "volt"
    NUMBER = "number"
    TEETH = "teeth"
    THREADS = "threads"
    THREADS_TO_LENGTH = "threads/in"
    UNKNOWN = "unknown"


@dataclass(frozen=True, slots=True)
class Unit:
    """`size` is how many of the base it is, `told_in` the unit of the other system it is told in besides."""

    name: str
    of: Quantity
    ucum: str | None
    size: Fraction
    told_in: str | None = None


_IN = Fraction(254, 10)  # mm
_LB = Fraction(45359237, 10**8)  # kg
_G = Fraction(980665, 10**5)  # m/s²
_LBF = _LB * _G  # N
_IMP_GALLON = Fraction(454609, 10**5)  # litre
_US_GALLON = 231 * _IN**3 / 10**6

_TABLE = (
    Unit("in", Quantity.LENGTH, "[in_i]", _IN, "mm"),
    Unit("thou", Quantity.LENGTH, "[mil_i]", _IN / 1000, "mm"),
    Unit("ft", Quantity.LENGTH, "[ft_i]", 12 * _IN, "m"),
    Unit("mm", Quantity.LENGTH, "mm", Fraction(1), "in"),
    Unit("µm", Quantity.LENGTH, "um", Fraction(1, 1000), "thou"),
    Unit("m", Quantity.LENGTH, "m", Fraction(1000), "ft"),
    Unit("oz", Quantity.MASS, "[oz_av]", _LB / 16, "g"),
    Unit("lb", Quantity.MASS, "[lb_av]", _LB, "kg"),
    Unit("cwt", Quantity.MASS, "[lcwt_av]", 112 * _LB, "kg"),
    Unit("US cwt", Quantity.MASS, "[scwt_av]", 100 * _LB, "kg"),
    Unit("g", Quantity.MASS, "g", Fraction(1, 1000), "oz"),
    Unit("kg", Quantity.MASS, "kg", Fraction(1), "lb"),
    Unit("psi", Quantity.PRESSURE, "[psi]", _LBF / _IN**2 * 10, "bar"),
    Unit("bar", Quantity.PRESSURE, "bar", Fraction(1), "psi"),
    Unit("kgf/cm²", Quantity.PRESSURE, "kgf/cm2", _G / 10, "psi"),
    Unit("pint", Quantity.UNKNOWN, None, Fraction(1)),
    Unit("imp fl oz", Quantity.VOLUME, "[foz_br]", _IMP_GALLON / 160, "ml"),
    Unit("imp pint", Quantity.VOLUME, "[pt_br]", _IMP_GALLON / 8, "litre"),
    Unit("imp gallon", Quantity.VOLUME, "[gal_br]", _IMP_GALLON, "litre"),
    Unit("US fl oz", Quantity.VOLUME, "[foz_us]", _US_GALLON / 128, "ml"),
    Unit("US pint", Quantity.VOLUME, "[pt_us]", _US_GALLON / 8, "litre"),
    Unit("US quart", Quantity.VOLUME, "[qt_us]", _US_GALLON / 4, "litre"),
    Unit("US gallon", Quantity.VOLUME, "[gal_us]", _US_GALLON, "litre"),
    Unit("ml", Quantity.VOLUME, "mL", Fraction(1, 1000)),
    Unit("litre", Quantity.VOLUME, "L", Fraction(1)),
    Unit("lbf·in", Quantity.TORQUE, "[lbf_av].[in_i]", _LBF * _IN / 1000, "N·m"),
    Unit("lbf·ft", Quantity.TORQUE, "[lbf_av].[ft_i]", _LBF * 12 * _IN / 1000, "N·m"),
    Unit("kgf·m", Quantity.TORQUE, "kgf.m", _G, "N·m"),
    Unit("N·m", Quantity.TORQUE, "N.m", Fraction(1), "lbf·ft"),
    Unit("lbf", Quantity.FORCE, "[lbf_av]", _LBF, "N"),
    Unit("kgf", Quantity.FORCE, "kgf", _G, "N"),
    Unit("N", Quantity.FORCE, "N", Fraction(1), "lbf"),
    Unit("lbf/in", Quantity.SPRING_RATE, "[lbf_av]/[in_i]", _LBF / _IN, "N/mm"),
    Unit("N/mm", Quantity.SPRING_RATE, "N/mm", Fraction(1), "lbf/in"),
    Unit("degree", Quantity.ANGLE, "deg", Fraction(1)),
    Unit("turns", Quantity.ANGLE, "circ", Fraction(360)),
    Unit("teeth", Quantity.TEETH, "{teeth}", Fraction(1)),
    Unit("threads", Quantity.THREADS, "{threads}", Fraction(1)),
    Unit("threads/in", Quantity.THREADS_TO_LENGTH, "{threads}/[in_i]", Fraction(1)),
    Unit("rpm", Quantity.SPEED, "{revolutions}/min", Fraction(1)),
    Unit("ohm", Quantity.RESISTANCE, "Ohm", Fraction(1)),
    Unit("volt", Quantity.TENSION, "V", Fraction(1)),
    Unit("litre/min", Quantity.FLOW, "L/min", Fraction(1)),
    Unit("gal/min", Quantity.FLOW, "[gal_br]/min", _IMP_GALLON),
    Unit("°C", Quantity.WARMTH, "Cel", Fraction(1)),
    Unit("number", Quantity.NUMBER, "1", Fraction(1)),
)
UNITS = {unit.name: unit for unit in _TABLE}


# The names that are words; the others are signs, alike in every language.
_WORDS = {
    "pint": marked("pint"),
    "imp fl oz": marked("imp fl oz"),
    "imp pint": marked("imp pint"),
    "imp gallon": marked("imp gallon"),
    "US fl oz": marked("US fl oz"),
    "US pint": marked("US pint"),
    "US quart": marked("US quart"),
    "US gallon": marked("US gallon"),
    "litre": marked("litre"),
    "degree": marked("degree"),
    "turns": marked("turns"),
    "teeth": marked("teeth"),
    "threads": marked("threads"),
    "threads/in": marked("threads/in"),
    "rpm": marked("rpm"),
    "ohm": marked("ohm"),
    "volt": marked("volt"),
    "litre/min": marked("litre/min"),
    "gal/min": marked("gal/min"),
}


def unit_told(name: str) -> str:
    """A unit as a reader is told it."""
    return _(_WORDS[name]) if name in _WORDS else name


def factor(unit: Unit, other: Unit) -> Fraction:
    """How many of another unit of the same sort make one."""
    return unit.size / other.size
