"""The stack of an assembly as a picture: its parts along the axis, to scale where their sizes are known."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from textwrap import wrap

from spanbook.answers.lines import Lists
from spanbook.ground.matching import words
from spanbook.ground.measures import MM_OF, read
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Size, StackPart
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.figures.shapes import USUAL, Box, Stroke, strokes
from spanbook.site.page import Link
from spanbook.wording.lines import or_words

WIDTH, AXIS, WIDEST = 340, 92, 130
LABEL = 182  # where the words begin
GAP, LEAST, LINE = 12, 12, 15
_ACROSS = {"diameter", "across", "width"}
_ALONG = {"length", "long", "depth", "thickness", "height", "deep"}
_LONGEST = 22  # characters of a line of words


@dataclass(frozen=True, slots=True)
class Drawn:
    """One piece: its strokes, and the words beside it with the leader to them.

    `guessed` where nobody has measured it; `renew` where it never goes back. The last `numbers` of the words
    are numbers.
    """

    strokes: tuple[Stroke, ...]
    guessed: bool
    renew: bool
    link: Link
    words: tuple[str, ...]
    numbers: int
    y: float
    edge: float


@dataclass(frozen=True, slots=True)
class Stack:
    """The picture in its own units; `title` says what it shows to whoever cannot see it."""

    title: str
    width: int
    height: int
    axis: int
    label: int
    pieces: tuple[Drawn, ...]


@dataclass(frozen=True, slots=True)
class _Piece:
    part: StackPart
    key: PartKey
    name: str
    others: tuple[str, ...]
    across: float | None
    along: float | None


def stack(lists: Lists, assembly: Assembly, title: str, renewed: Iterable[PartKey]) -> Stack | None:
    """The picture of an assembly whose record tells the order of its parts; None where it does not.

    A piece that may go by several numbers is drawn once, with all of them beside it.
    """
    register = lists.register
    if not assembly.stack:
        return None
    drawn_by_itself = {register.key_of(assembly, part) for part in assembly.stack}
    places = lists.place_of(assembly)
    pieces = []
    for part in assembly.stack:
        key = register.key_of(assembly, part)
        others = (one for one in places[key].keys if one not in drawn_by_itself) if key in places else ()
        pieces.append(_piece(register, assembly, part, tuple(register.parts[one].number for one in others)))
    widest = max((piece.across for piece in pieces if piece.across), default=None)
    scale = WIDEST / widest if widest else None
    gone = set(renewed)
    drawn = tuple(_drawn(pieces, scale, gone))
    foot = max(one.y + LINE * len(one.words) for one in drawn)
    low = max(foot, _foot(pieces, scale))
    return Stack(title, WIDTH, round(low + GAP), AXIS, LABEL, drawn)


def _piece(register: Register, assembly: Assembly, part: StackPart, others: tuple[str, ...]) -> _Piece:
    """With its sizes in mm: those of the stack first, else those of the part's own record."""
    key = register.key_of(assembly, part)
    known = register.parts.get(key)
    own = known.record.sizes if known and known.record else ()
    # Of a piece among several under one number the record's sizes say nothing.
    sizes = (*part.sizes, *(own if part.piece is None else ()))
    name = known.name if known else ""
    return _Piece(part, key, name, others, _length(sizes, _ACROSS), _length(sizes, _ALONG))


def _length(sizes: Sequence[Size], said: set[str]) -> float | None:
    for size in sizes:
        if size.unit in MM_OF and said & set(words(size.what)):
            return float(read(size.value) * MM_OF[size.unit])
    return None


def _size(piece: _Piece, scale: float | None) -> tuple[float, float]:
    """Width and height on the page: to scale what is known, the rest as such a thing mostly is."""
    usual_across, usual_along = USUAL[piece.part.shape]
    across = piece.across * scale if piece.across and scale else usual_across * WIDEST
    known = piece.along * scale if piece.along and scale else None
    along = known or usual_along * across / usual_across
    return min(max(across, LEAST), WIDEST), min(max(along, LEAST), 1.4 * WIDEST)


def _places(pieces: Sequence[_Piece], scale: float | None) -> Iterator[Box]:
    """The boxes, one below the other; what sits in a side is drawn smaller, beside the axis."""
    top = float(GAP)
    for piece in pieces:
        width, height = _size(piece, scale)
        if piece.part.inside:
            width, height = width * 0.7, height * 0.7
        # A name on two lines reaches into the gap, and needs room only where more numbers follow.
        lines = len(_words_of(piece)) if piece.others else 2
        words_need = LINE * lines + 2
        x = AXIS + 34 if piece.part.inside else AXIS
        yield Box(x, top, width, height)
        top += max(height, words_need) + GAP


def _foot(pieces: Sequence[_Piece], scale: float | None) -> float:
    return max(box.foot for box in _places(pieces, scale))


def _drawn(pieces: Sequence[_Piece], scale: float | None, renewed: set[PartKey]) -> Iterator[Drawn]:
    for piece, box in zip(pieces, _places(pieces, scale), strict=True):
        yield Drawn(
            strokes(piece.part.shape, box),
            scale is None or piece.across is None or piece.along is None,
            piece.key in renewed,
            Link(piece.part.number, addresses.of_part(piece.key)),
            _words_of(piece),
            1 + len(piece.others),
            box.top + min(box.height / 2, LINE) + 2,
            box.right,
        )


def _words_of(piece: _Piece) -> tuple[str, ...]:
    """The name on one line or two, then each number has a line of its own."""
    called = piece.part.piece or piece.name or piece.part.shape
    return (*wrap(called, _LONGEST)[:2], piece.part.number, *map(or_words, piece.others))
