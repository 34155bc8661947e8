"""How thick an oil is when it is warm, from its SAE grade and its viscosity index.

The grades' ranges at 100 °C are those of SAE J300 (from memory). The index ties them to 40 °C by ASTM
D2270, in the form of its equations, which tests hold to a published copy of its table; between and beyond
temperatures ASTM D341's straight line holds. An oil of 1935 has a low index: what a maker's book called
"30" was no multigrade.
"""

from __future__ import annotations

import math
from functools import lru_cache

# The range of kinematic viscosity at 100 °C, in mm²/s, of each grade.
GRADES = {
    "sae-20": (6.9, 9.3),
    "sae-30": (9.3, 12.5),
    "sae-40": (12.5, 16.3),
    "sae-50": (16.3, 21.9),
    "sae-60": (21.9, 26.1),
}
# ASTM D2270's equations for L (an oil of index 0) and H (of 100) at 40 °C, by the viscosity at 100 °C up to
# which each row holds: coefficients of its square, of itself, and what is added.
_INDEX = (
    (3.8, (1.14673, 1.7576, -0.109), (0.84155, 1.5521, -0.077)),
    (4.4, (3.38095, -15.4952, 33.196), (0.78571, 1.7929, -0.183)),
    (5.0, (2.5000, -7.2143, 13.812), (0.82143, 1.5679, 0.119)),
    (6.4, (0.10100, 16.6350, -45.469), (0.04985, 9.1613, -18.557)),
    (7.0, (3.35714, -23.5643, 78.466), (0.22619, 7.7369, -16.656)),
    (7.7, (0.01191, 21.4750, -72.870), (0.79762, -0.7321, 14.610)),
    (9.0, (0.41858, 16.1558, -56.040), (0.05794, 10.5156, -28.240)),
    (12.0, (0.88779, 7.5527, -16.600), (0.26665, 6.7015, -10.810)),
    (15.0, (0.76720, 10.7972, -38.180), (0.20073, 8.4658, -22.490)),
    (18.0, (0.97305, 5.3135, -2.200), (0.28889, 5.9741, -4.930)),
    (22.0, (0.97256, 5.2500, -0.980), (0.24504, 7.4160, -16.730)),
    (28.0, (0.91413, 7.4759, -21.820), (0.20323, 9.1267, -34.230)),
    (40.0, (0.87031, 9.7157, -50.770), (0.18411, 10.1015, -46.750)),
    (55.0, (0.84703, 12.6752, -133.310), (0.17029, 11.4866, -80.620)),
    (70.0, (0.85921, 11.1009, -83.190), (0.17130, 11.3680, -76.940)),
)
_ZERO = 273.15
_SHIFT = 0.7  # ASTM D341, for oils of more than 2 mm²/s


def at_forty(at_hundred: float, index: float) -> float:
    """The kinematic viscosity at 40 °C in mm²/s of an oil, from that at 100 °C (2 to 70) and its index (0
    to 100).
    """
    for upto, low, high in _INDEX:
        if at_hundred <= upto:
            thick, thin = _quadratic(low, at_hundred), _quadratic(high, at_hundred)
            return thick - index / 100 * (thick - thin)
    raise ValueError(f"{at_hundred} mm²/s at 100 °C is thicker than the index is defined for")


@lru_cache(1024)  # bounds ask of the same few oils thousands of times
def kinematic(at_hundred: float, index: float, celsius: float) -> float:
    """The kinematic viscosity in mm²/s at a temperature."""
    one, other = _line(at_forty(at_hundred, index)), _line(at_hundred)
    warm, hot = math.log10(40 + _ZERO), math.log10(100 + _ZERO)
    slope = (one - other) / (hot - warm)
    there: float = 10 ** (10 ** (other + slope * (hot - math.log10(celsius + _ZERO))))
    return there - _SHIFT


def _line(viscosity: float) -> float:
    return math.log10(math.log10(viscosity + _SHIFT))


def _quadratic(terms: tuple[float, float, float], value: float) -> float:
    square, linear, added = terms
    return square * value**2 + linear * value + added
