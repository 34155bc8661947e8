"""How a shape is moved, turned and stretched: SVG's `transform` (W3C SVG 2, section 8.5) as one matrix."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import cos, radians, sin, tan

from spanbook.ground.drawings.numbers import NoNumber, Numbers, bounded

_NAMES = "matrix|translate|scale|rotate|skewX|skewY"
_ONE = re.compile(rf"[\s,]*({_NAMES})\s*\(([^()]*)\)", re.ASCII)
_MOST = 200  # of them in one attribute


@dataclass(frozen=True, slots=True)
class Matrix:
    """The point (x, y) comes to (a x + c y + e, b x + d y + f)."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def of(self, x: float, y: float) -> tuple[float, float]:
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def __matmul__(self, inner: Matrix) -> Matrix:
        """What `inner` does and then this one. Raises NoNumber when it grows beyond all bounds."""
        a, b = self.a * inner.a + self.c * inner.b, self.b * inner.a + self.d * inner.b
        c, d = self.a * inner.c + self.c * inner.d, self.b * inner.c + self.d * inner.d
        e, f = self.of(inner.e, inner.f)
        return Matrix(*map(bounded, (a, b, c, d, e, f)))


def matrix_of(text: str) -> Matrix:
    """The matrix of an attribute. Raises NoNumber for what is none."""
    whole, at = Matrix(), 0
    for _ in range(_MOST):
        found = _ONE.match(text, at)
        if found is None:
            break
        whole = whole @ _one(found[1], Numbers(found[2]).all())
        at = found.end()
    if text[at:].strip(", \t\r\n\f"):
        raise NoNumber(text[at : at + 20])
    return whole


def _one(name: str, numbers: list[float]) -> Matrix:
    match name, numbers:
        case "matrix", [a, b, c, d, e, f]:
            return Matrix(a, b, c, d, e, f)
        case "translate", [x]:
            return Matrix(e=x)
        case "translate", [x, y]:
            return Matrix(e=x, f=y)
        case "scale", [x]:
            return Matrix(a=x, d=x)
        case "scale", [x, y]:
            return Matrix(a=x, d=y)
        case "rotate", [angle]:
            turn = radians(angle)
            return Matrix(cos(turn), sin(turn), -sin(turn), cos(turn))
        case "rotate", [angle, x, y]:
            return Matrix(e=x, f=y) @ _one("rotate", [angle]) @ Matrix(e=-x, f=-y)
        case "skewX", [angle]:
            return Matrix(c=bounded(tan(radians(angle))))
        case "skewY", [angle]:
            return Matrix(b=bounded(tan(radians(angle))))
    raise NoNumber(f"{name}{tuple(numbers)}"[:40])
