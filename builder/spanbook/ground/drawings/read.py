"""From the bytes of an SVG file to a drawing, or to what is wrong with it.

The file is walked once, by libexpat, with no document type, so that there is nothing to expand and nothing to
load. What only a person needs (titles, an editor's own notes) is passed over; what draws and is not taken is
named; what would do something, or steer how the rest looks, is refused.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from xml.parsers import expat

from spanbook.ground.drawings.drawing import LONG, Drawing, Pen, Segment, Stroke
from spanbook.ground.drawings.numbers import NoNumber, Numbers, length
from spanbook.ground.drawings.paths import Step
from spanbook.ground.drawings.pens import Look
from spanbook.ground.drawings.shapes import NAMES, shape
from spanbook.ground.drawings.transforms import Matrix, matrix_of

MOST_BYTES = 1_000_000
MOST_SEGMENTS = 20_000
MOST_ELEMENTS = 20_000
MOST_DEEP = 60
MOST_LEAN = 12  # how many times longer than wide, or wider
# What no address holds parts the name of an element from its namespace.
_BETWEEN = "\n"
_SVG = f"http://www.w3.org/2000/svg{_BETWEEN}"
_PASSED_OVER = {"title", "desc", "metadata", "defs"}
_DOES = {
    *("script", "handler", "listener", "foreignobject", "iframe", "embed", "object", "audio", "video"),
    *("animate", "animatemotion", "animatetransform", "animatecolor", "set", "discard", "mpath"),
}
# What would be drawn otherwise by them than we draw it.
_CHANGES = ("clip-path", "mask", "filter", "marker-start", "marker-mid", "marker-end")
_MOST_LEFT = 8  # names of what is left behind


class Flaw(StrEnum):
    """What is wrong with a file that is not taken as a drawing."""

    NO_DRAWING = "no-drawing"
    BROKEN = "broken"  # it is no well-formed XML
    TOO_MANY_BYTES = "too-many-bytes"
    TOO_MUCH = "too-much"
    TOO_DEEP = "too-deep"
    DOCTYPE = "doctype"
    DOES = "does"  # it would do something
    STYLED = "styled"
    NO_SIZE = "no-size"
    TOO_LEAN = "too-lean"
    NO_NUMBER = "no-number"
    EMPTY = "empty"


class Refused(Exception):  # noqa: N818 - it says what happened
    """A file that is not taken as a drawing: what is wrong, in which line, and what was read there."""

    def __init__(self, flaw: Flaw, line: int = 1, read: str = "") -> None:
        super().__init__(flaw, line, read)
        self.flaw = flaw
        self.line = line
        self.read = read


def read(data: bytes) -> Drawing:
    """The drawing in a file. Raises Refused."""
    if len(data) > MOST_BYTES:
        raise Refused(Flaw.TOO_MANY_BYTES, read=f"{len(data):,}")
    walk = _Walk()
    try:
        walk.parser.Parse(data.decode(), True)
    except UnicodeDecodeError:  # libexpat would take other encodings by what a file begins with
        raise Refused(Flaw.BROKEN if b"<svg" in data else Flaw.NO_DRAWING) from None
    except expat.ExpatError as broken:
        flaw = Flaw.NO_DRAWING if walk.sheet is None else Flaw.BROKEN
        raise Refused(flaw, broken.lineno) from None
    except NoNumber as wrong:
        raise Refused(Flaw.NO_NUMBER, walk.parser.CurrentLineNumber, str(wrong)[:40]) from None
    if not walk.strokes:
        raise Refused(Flaw.EMPTY)
    sheet = walk.sheet
    assert sheet is not None  # what draws stands inside of it
    return Drawing(sheet.width, sheet.height, tuple(walk.strokes), tuple(walk.left)[:_MOST_LEFT])


@dataclass(frozen=True, slots=True)
class _Sheet:
    width: int
    height: int


class _Walk:
    """What is known of a file so far. The last of `around` is the element that is open."""

    def __init__(self) -> None:
        self.sheet: _Sheet | None = None
        self.strokes: list[Stroke] = []
        self.left: dict[str, None] = {}
        self._around: list[tuple[Matrix, Look]] = []
        self._passing = 0  # how deep inside of what is passed over
        self._styling = False
        self._elements = 0
        self._segments = 0
        self.parser = expat.ParserCreate("utf-8", _BETWEEN)
        self.parser.StartDoctypeDeclHandler = self._doctype
        self.parser.StartElementHandler = self._start
        self.parser.EndElementHandler = self._end
        self.parser.CharacterDataHandler = self._text

    def _refuse(self, flaw: Flaw, read: str = "") -> Refused:
        return Refused(flaw, self.parser.CurrentLineNumber, read[:40])

    def _doctype(self, _name: str, _system: str | None, _public: str | None, inside: int) -> None:
        # The published document type of SVG 1.1 declares nothing here, for it is never fetched.
        if inside:
            raise self._refuse(Flaw.DOCTYPE)

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        self._elements += 1
        if self._elements > MOST_ELEMENTS:
            raise self._refuse(Flaw.TOO_MUCH)
        if len(self._around) + self._passing >= MOST_DEEP:
            raise self._refuse(Flaw.TOO_DEEP)
        ours = name.startswith(_SVG)
        local = name.removeprefix(_SVG)
        self._hold_still(local if ours else name.rpartition(_BETWEEN)[2], attributes)
        if self.sheet is None:
            self._open(local if ours else "", attributes)
        elif self._passing or not ours or local in _PASSED_OVER or local == "style":
            self._passing += 1
            self._styling = self._styling or (ours and local == "style")
        elif local == "g" or local in NAMES:
            self._enter(local, attributes)
        else:
            self.left.setdefault(local[:30])
            self._passing += 1

    def _hold_still(self, local: str, attributes: dict[str, str]) -> None:
        """Raises Refused for what would do something, wherever it stands."""
        if local.lower() in _DOES:
            raise self._refuse(Flaw.DOES, local)
        for key in attributes:
            if key.rpartition(_BETWEEN)[2].lower().startswith("on"):
                raise self._refuse(Flaw.DOES, key.rpartition(_BETWEEN)[2])

    def _open(self, local: str, attributes: dict[str, str]) -> None:
        if local != "svg":
            raise self._refuse(Flaw.NO_DRAWING)
        left, top, width, height = self._box(attributes)
        if width <= 0 or height <= 0:
            raise self._refuse(Flaw.NO_SIZE)
        if max(width, height) > MOST_LEAN * min(width, height):
            raise self._refuse(Flaw.TOO_LEAN)
        scale = LONG / max(width, height)
        self.sheet = _Sheet(round(width * scale), round(height * scale))
        whole = Matrix(scale, 0, 0, scale, -left * scale, -top * scale)
        self._around.append((whole, Look().inside(attributes)))

    def _box(self, attributes: dict[str, str]) -> tuple[float, float, float, float]:
        if "viewBox" in attributes:
            box = Numbers(attributes["viewBox"]).all()
            if len(box) == 4:
                return box[0], box[1], box[2], box[3]
        if "width" in attributes and "height" in attributes:
            return 0.0, 0.0, length(attributes["width"]), length(attributes["height"])
        raise self._refuse(Flaw.NO_SIZE)

    def _enter(self, local: str, attributes: dict[str, str]) -> None:
        matrix, look = self._around[-1]
        for key in _CHANGES:
            if attributes.get(key, "none") != "none" or f"{key}:" in attributes.get("style", ""):
                self.left.setdefault(key)
        if moved := attributes.get("transform"):
            matrix = matrix @ matrix_of(moved)
        look = look.inside(attributes)
        self._around.append((matrix, look))
        pen = look.pen
        if local in NAMES and pen:
            self._draw(shape(local, attributes, MOST_SEGMENTS - self._segments), matrix, look, pen)

    def _draw(self, steps: list[Step], matrix: Matrix, look: Look, pen: Pen) -> None:
        self._segments += len(steps)
        if self._segments > MOST_SEGMENTS:
            raise self._refuse(Flaw.TOO_MUCH)
        segments = tuple(_whole(steps, matrix))
        if self.sheet and len(segments) > 1 and _is_seen(segments, self.sheet):
            self.strokes.append(Stroke(pen, look.odd, segments))

    def _end(self, _name: str) -> None:
        if self._passing:
            self._passing -= 1
            self._styling = self._styling and self._passing > 0
        else:
            self._around.pop()

    def _text(self, text: str) -> None:
        if self._styling and not text.isspace():
            raise self._refuse(Flaw.STYLED)


def _whole(steps: list[Step], matrix: Matrix) -> list[Segment]:
    """The steps on the sheet, in whole numbers, without lines that lead nowhere."""
    made: list[Segment] = []
    at: tuple[int, ...] = ()
    for letter, points in steps:
        flat: list[int] = []
        for x, y in points:
            u, v = matrix.of(x, y)
            if not (-10 * LONG < u < 11 * LONG and -10 * LONG < v < 11 * LONG):
                raise NoNumber(f"{u:.0f},{v:.0f}")
            flat += [round(u), round(v)]
        if letter == "L" and tuple(flat) == at and made[-1][0] != "M":
            continue
        made.append((letter, tuple(flat)))
        at = tuple(flat[-2:]) if flat else ()
    return made


def _is_seen(segments: tuple[Segment, ...], sheet: _Sheet) -> bool:
    across = [x for _, flat in segments for x in flat[::2]]
    along = [y for _, flat in segments for y in flat[1::2]]
    within = min(across) <= sheet.width and max(across) >= 0 and min(along) <= sheet.height
    return within and max(along) >= 0
