"""From where a plate is seen: an orthographic projection, so that equal things are drawn equal."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

Floats = NDArray[np.float64]


@dataclass(frozen=True)
class View:
    """Where the eye is, seen from the thing: degrees round its axis and above what the axis stands on.

    The picture is then turned to the right by so many degrees: with 90 an upright axis lies level.
    """

    round: float = -60
    above: float = 24
    leaning: float = 0

    @cached_property
    def towards(self) -> Floats:
        """The direction to the eye, of length one."""
        flat = cos(radians(self.above))
        return np.array(
            [flat * cos(radians(self.round)), flat * sin(radians(self.round)), sin(radians(self.above))]
        )

    @cached_property
    def right(self) -> Floats:
        level = np.array([-sin(radians(self.round)), cos(radians(self.round)), 0.0])
        return cos(radians(self.leaning)) * level + sin(radians(self.leaning)) * np.cross(self.towards, level)

    @cached_property
    def up(self) -> Floats:
        return np.cross(self.towards, self.right)

    def flat(self, points: Floats) -> Floats:
        """Points of space (n, 3) as (n, 3) of the picture: to the right, down, and how near the eye."""
        return np.stack([points @ self.right, -(points @ self.up), points @ self.towards], axis=1)
