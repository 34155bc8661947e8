"""A thread is a series, a diameter, a pitch and a form; everything else follows from those.

Formulas: ISO 68-1 and ASME B1.1 for flanks of 60° (H = √3/2·p), BS 84 and ISO 228-1 for 55°
(depth 0.640327·p), BS 93 for BA's 47½° (depth 0.6·p). Tolerances of outside diameters by ISO 965-1 and
ASME B1.1; of the other forms by BS 84's medium class. All from memory.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import sqrt

_INCH = 25.4
# Of each form: the angle of its flanks, and how far effective and minor diameter lie under the outside one,
# as a share of the pitch.
_SIXTY = (Fraction(60), Fraction("0.649519"), Fraction("1.082532"))
_FORMS = {
    "BSW": (Fraction(55), Fraction("0.640327"), Fraction("1.280654")),
    "BSF": (Fraction(55), Fraction("0.640327"), Fraction("1.280654")),
    "BSP": (Fraction(55), Fraction("0.640327"), Fraction("1.280654")),
    "BA": (Fraction(95, 2), Fraction("0.6"), Fraction("1.2")),
}
_NPT_TAPER = 1 / 16  # on the diameter


@dataclass(frozen=True)
class Thread:
    """`diameter` (outside) and `pitch` in mm; a size is as the trade writes it, `5/16` or `M8`."""

    series: str
    size: str
    diameter: Fraction
    pitch: Fraction
    source: str

    @property
    def _form(self) -> tuple[Fraction, Fraction, Fraction]:
        return _FORMS.get(self.series, _SIXTY)

    @property
    def angle(self) -> Fraction:
        """Between the flanks, in degrees."""
        return self._form[0]

    @property
    def effective(self) -> Fraction:
        """Effective (pitch) diameter in mm, basic."""
        return self.diameter - self._form[1] * self.pitch

    @property
    def minor(self) -> Fraction:
        """Minor diameter in mm, basic: what the bore of a new nut is at least."""
        return self.diameter - self._form[2] * self.pitch

    @property
    def per_inch(self) -> Fraction:
        """Threads to the inch."""
        return Fraction(254, 10) / self.pitch

    @cached_property
    def outside(self) -> tuple[float, float]:
        """Between which two diameters, in mm, a new bolt lies."""
        size, pitch = float(self.diameter), float(self.pitch)
        if self.series == "M":  # 6g
            allowance, tolerance = (
                (15 + 11 * pitch) / 1000,
                (180 * pitch ** (2 / 3) - 3.15 / sqrt(pitch)) / 1000,
            )
        elif self.series in ("UNC", "UNF"):  # 2A
            inch = pitch / _INCH
            tolerance, allowance = 0.06 * inch ** (2 / 3) * _INCH, 0.0012 * _INCH
        elif self.series == "NPT":  # thinner towards its end, over a length of some seven threads
            tolerance, allowance = 7 * pitch * _NPT_TAPER, 0.0
        elif self.series == "BSP":
            tolerance, allowance = 0.13 + 0.05 * pitch, 0.0
        else:
            inch, across = pitch / _INCH, size / _INCH
            medium = 0.002 * across ** (1 / 3) + 0.003 * sqrt(across) + 0.005 * sqrt(inch)
            tolerance, allowance = (medium + 0.01 * sqrt(inch)) * _INCH, 0.0
        return size - allowance - tolerance, size - allowance

    @property
    def minor_tolerance(self) -> float:
        """How much wider than basic, in mm, the bore of a new nut may be: about a fifth of the pitch."""
        return 0.2 * float(self.pitch)

    def engagement(self, drill: float) -> float:
        """How much of the full depth a hole drilled so wide, in mm, leaves to be tapped: 0.75 is usual.

        By the flanks' full depth, which for 60° is 1.299038·p (ASME B1.1's definition of 100 per cent).
        """
        depth = 1.299038 if self.angle == 60 else float(self._form[2])
        return (float(self.diameter) - drill) / (depth * float(self.pitch))
