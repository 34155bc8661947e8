"""A circuit as a picture: what flows comes down from where it is open to where it is open again.

Where figures are known a band beside each way is as wide as what flows there: solid what surely does, hatched
what may. Without figures there are lines alone.
"""

from __future__ import annotations

from dataclasses import dataclass
from textwrap import wrap

from spanbook.answers.flow.figures import Figures, Worked
from spanbook.answers.flow.pieces import Piece
from spanbook.answers.flow.tree import Beside, Row, Tree, pieces_in, tree
from spanbook.ground.language import gettext as _
from spanbook.site.figures.symbols import SYMBOLS
from spanbook.wording.flow import SHUT
from spanbook.wording.flow_amounts import flow_words, flows, pressure_short
from spanbook.wording.flow_ways import piece_title, place_title

COLUMN, LINE, LEAD, LONGEST = 124, 14, 12, 12
AXIS = 22  # where the line of a column runs
WORDS = 50  # where its words begin
WIDEST = 24.0  # of a band
_SYMBOL = 34
_OPEN = 22


@dataclass(frozen=True, slots=True)
class Sign:
    """One thing in its place: a symbol with its words; `wrong` where it is what is at fault."""

    x: float
    y: float
    outline: str
    strokes: str
    words: tuple[str, ...]
    figure: tuple[str, ...]
    wrong: bool


@dataclass(frozen=True, slots=True)
class Band:
    """How much flows: a strip about the line, as wide as that."""

    x: float
    y: float
    width: float
    height: float
    sure: bool


@dataclass(frozen=True, slots=True)
class Named:
    """A place with its name, and the pressure there where that is read."""

    x: float
    y: float
    words: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class CircuitPicture:
    title: str
    width: int
    height: int
    lines: tuple[str, ...]
    bands: tuple[Band, ...]
    signs: tuple[Sign, ...]
    places: tuple[Named, ...]


@dataclass(slots=True)
class _Sheet:
    """What has been drawn so far."""

    worked: Worked
    figures: Figures | None
    most: float
    lines: list[str]
    bands: list[Band]
    signs: list[Sign]
    places: list[Named]


def circuit_picture(worked: Worked, title: str) -> CircuitPicture | None:
    """The picture of an arrangement; None where its ways are not in rows and side by side only."""
    whole = tree(worked.arranged)
    if whole is None:
        return None
    figures, circuit = worked.figures, worked.arranged.circuit
    flowing = [one.high for one in figures.flows.values() if flows(one, circuit)] if figures else []
    most = max(flowing, default=0.0)
    sheet = _Sheet(worked, figures, most, [], [], [], [])
    pieces = pieces_in(whole)
    _open(sheet, 0, {piece.start for piece in pieces})
    bottom = _draw(sheet, whole, 0, _OPEN)
    _open(sheet, bottom, {piece.end for piece in pieces})
    return CircuitPicture(
        title,
        COLUMN * max(2, _columns(whole)),
        round(bottom + _OPEN),
        tuple(sheet.lines),
        tuple(sheet.bands),
        tuple(sheet.signs),
        tuple(sheet.places),
    )


def _open(sheet: _Sheet, y: float, ends: set[str]) -> None:
    """A tank without a lid, and its name."""
    titles = [one.title for one in sheet.worked.arranged.circuit.places if one.open and one.id in ends]
    sheet.lines.append(f"M{AXIS - 14} {y + 6}V{y + 18}H{AXIS + 14}V{y + 6}")
    sheet.places.append(Named(WORDS, y + 16, (", ".join(titles),)))


def _columns(of: Tree) -> int:
    match of:
        case Row(parts=parts):
            return max(map(_columns, parts))
        case Beside(parts=parts):
            return sum(map(_columns, parts))
        case _:
            return 1


def _draw(sheet: _Sheet, of: Tree, column: int, y: float) -> float:
    """Draws a tree from `y` downwards and gives where it ends."""
    match of:
        case Row(parts=parts, places=places):
            for part, place in zip(parts, (*places, None), strict=True):
                y = _draw(sheet, part, column, y)
                y = _place(sheet, place, part, column, y) if place else y
            return y
        case Beside(parts=parts):
            return _side_by_side(sheet, parts, column, y)
        case Piece():
            return _piece(sheet, of, column, y)


def _side_by_side(sheet: _Sheet, parts: tuple[Tree, ...], column: int, y: float) -> float:
    top, ends, at = y + LEAD, [], column
    first = _x(column)
    for part in parts:
        sheet.lines.append(f"M{first} {y}V{top}H{_x(at)}")
        ends.append((at, _draw(sheet, part, at, top)))
        at += _columns(part)
    bottom = max(end for start, end in ends) + LEAD
    for at, end in ends:
        sheet.lines.append(f"M{_x(at)} {end}V{bottom}H{first}")
    return bottom


def _piece(sheet: _Sheet, piece: Piece, column: int, y: float) -> float:
    x = _x(column)
    words = tuple(wrap(piece_title(piece), LONGEST))
    figure = _figure(sheet, piece)
    height = max(_SYMBOL + 2 * LEAD, LINE * (len(words) + len(figure)) + LEAD)
    foot = y + height
    sheet.lines.append(f"M{x} {y}V{foot}M{x - 4} {foot - 9}L{x} {foot - 3}L{x + 4} {foot - 9}")
    _bands(sheet, piece, x, y, height)
    outline, strokes = SYMBOLS[piece.way.through]
    sheet.signs.append(Sign(x, y + height / 2, outline, strokes, words, figure, sheet.worked.fault_at(piece)))
    return foot


def _figure(sheet: _Sheet, piece: Piece) -> tuple[str, ...]:
    """What flows in a few words; of a valve that stays shut, that it does."""
    if sheet.figures is None:
        return ()
    if piece.way.through == "relief" and sheet.figures.opens(piece) is False:
        return tuple(wrap(_(SHUT), LONGEST))
    return tuple(wrap(flow_words(sheet.figures.flows[piece.id], sheet.worked.arranged.circuit), LONGEST))


def _bands(sheet: _Sheet, piece: Piece, x: float, y: float, height: float) -> None:
    if sheet.figures is None or not sheet.most:
        return
    flow = sheet.figures.flows[piece.id]
    for share, sure in ((abs(flow.high), False), (max(0.0, flow.low), True)):
        width = WIDEST * share / sheet.most
        sheet.bands.append(Band(x - width / 2, y, width, height, sure))


def _place(sheet: _Sheet, place: str, before: Tree, column: int, y: float) -> float:
    """The name of a place on the way; what comes out of one piece runs on past it."""
    circuit = sheet.worked.arranged.circuit
    known = next((one for one in circuit.places if one.id == place), None)
    if known is None:
        return y
    words = wrap(place_title(circuit, place), LONGEST)
    if known.gauge and sheet.figures:
        words += wrap(pressure_short(sheet.figures.pressures[place], circuit), LONGEST)
    x, height = _x(column), LINE * len(words) + LEAD
    sheet.lines.append(f"M{x} {y}V{y + height}")
    if isinstance(before, Piece):
        _bands(sheet, before, x, y, height)
    sheet.places.append(Named(x + WORDS - AXIS, y + LEAD, tuple(words)))
    return y + height


def _x(column: int) -> int:
    return AXIS + COLUMN * column
