"""Amounts of flow, pressure and share in words: two ends, rounded outwards."""

from __future__ import annotations

import math

from spanbook.ground.flow.bounds import Between
from spanbook.ground.flow.si import si
from spanbook.ground.language import gettext as _
from spanbook.ground.language import pgettext
from spanbook.ground.measures import both_ways
from spanbook.ground.units import unit_told
from spanbook.reading.records import Circuit, WaySize
from spanbook.wording.grammar import decimals, span_of

PSI = si("psi")
LITRE_MINUTE = si("litre/min")
# So little, in the unit in which it is told, is nothing: a state at rest is found only nearly.
NOTHING = 1e-3
# Above this something gives way before the pressure is reached: our own guess.
GIVES_WAY = 300.0


def size_words(size: WaySize) -> str:
    """A size of a way as it was typed, in both systems where it has two."""
    if size.unit == "number":
        return decimals(span_of([end for end in (size.value, size.to) if end]))
    if size.to is None:
        return decimals(both_ways(size.value, size.unit))
    ends = [both_ways(end, size.unit) for end in (size.value, size.to)]
    plain = [f"{end} {unit_told(size.unit)}" for end in (size.value, size.to)]
    return decimals(span_of([size.value, plain[1]] if ends == plain else ends))


def flow_words(flow: Between, circuit: Circuit) -> str:
    """What flows: `4.9 to 8.3 litre/min`."""
    unit, of = _unit_of(circuit)
    return f"{ends_words(flow.low / of, flow.high / of)} {unit}"


def flows(flow: Between, circuit: Circuit) -> bool:
    """Whether anything may flow at all."""
    return max(abs(flow.low), abs(flow.high)) / _unit_of(circuit)[1] >= NOTHING


def _unit_of(circuit: Circuit) -> tuple[str, float]:
    if circuit.medium == "current":
        return _("ampere"), 1.0
    return unit_told("litre/min"), LITRE_MINUTE


def pressure_words(pressure: Between, circuit: Circuit) -> str:
    """A pressure in both units: `5.2 to 38 psi (0.35 to 2.6 bar)`."""
    if circuit.medium == "current":
        return f"{ends_words(pressure.low, pressure.high)} {unit_told('volt')}"
    low, high = pressure.low / PSI, pressure.high / PSI
    if high > GIVES_WAY:
        return _("{pressure} psi or more: something gives way first").format(pressure=digits(low))
    return f"{ends_words(low, high)} psi ({ends_words(pressure.low / 1e5, pressure.high / 1e5)} bar)"


def pressure_short(pressure: Between, circuit: Circuit) -> str:
    """A pressure where there is room for one unit."""
    if circuit.medium == "current":
        return f"{ends_words(pressure.low, pressure.high)} V"
    return f"{ends_words(pressure.low / PSI, pressure.high / PSI)} psi"


def percent_words(share: Between) -> str:
    """`7 to 31 %`; nothing and all are said as such."""
    low, high = math.floor(share.low * 100 + 1e-6), math.ceil(share.high * 100 - 1e-6)
    if high == 0:
        return pgettext("a share of what flows", "nothing")
    if low == 100:
        return pgettext("a share of what flows", "all")
    told = _("{} %").format(high)
    return told if low == high else span_of([f"{low}", told])


def ends_words(low: float, high: float) -> str:
    """Two ends with two digits each, the range never narrower than it is."""
    ends = digits(low), digits(high, up=True)
    return span_of(ends if ends[0] != ends[1] else ends[:1])


def digits(value: float, *, up: bool = False) -> str:
    """Two significant digits, down or up; next to nothing is nothing."""
    if abs(value) < NOTHING:
        return "0"
    places = 1 - math.floor(math.log10(abs(value)))
    scaled = value * 10**places
    # What a computer adds to a whole number is not a reason to round it away.
    whole = math.ceil(scaled - 1e-3) if up else math.floor(scaled + 1e-3)
    return decimals(f"{whole / 10**places:.{max(0, places)}f}".replace("-", "−"))
