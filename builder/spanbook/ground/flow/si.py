"""The trade's units in those that laws and networks reckon in."""

from __future__ import annotations

from spanbook.ground.units import UNITS, Quantity

# Of the bases in which units are told; what is not here is reckoned in as it is.
_OF_BASE = {Quantity.LENGTH: 1e-3, Quantity.PRESSURE: 1e5, Quantity.FLOW: 1e-3 / 60}


def si(unit: str) -> float:
    """How many SI units one of a unit is. Raises KeyError for a unit that the table has not."""
    known = UNITS[unit]
    return float(known.size) * _OF_BASE.get(known.of, 1.0)
