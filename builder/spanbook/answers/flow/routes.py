"""Every way that it can take, without a single size: what comes to the bearings cleaned, and what does not.

A route begins where a pump gives it out (without a pump, at a place that is open) and ends where it is open
again. It never crosses a place twice, nor takes a way back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.flow.faults import Fault, left_out, passes
from spanbook.answers.flow.pieces import ONE_WAY, Arranged, Piece

# A network that gives more is no circuit that anybody drew.
MOST_ROUTES = 500


class Cleaned(StrEnum):
    """What reaches a thing that is served. Of what is cleaned in part, the rest never passes an element.

    by-valve: cleaned, unless a valve opens round the element.
    """

    ALWAYS = "always"
    BY_VALVE = "by-valve"
    IN_PART = "in-part"
    NEVER = "never"
    UNREACHED = "unreached"


@dataclass(frozen=True, slots=True, eq=False)
class Route:
    """The pieces on the way, in order; `valves` are those that have to open for it."""

    pieces: tuple[Piece, ...]
    end: str
    cleaned_by: tuple[Piece, ...]
    valves: tuple[Piece, ...]

    def upto(self, piece: Piece) -> Route:
        """The part of it that ends in a piece."""
        at = self.pieces.index(piece) + 1
        taken = self.pieces[:at]
        cleaned = tuple(one for one in self.cleaned_by if one in taken)
        return Route(taken, piece.end, cleaned, tuple(one for one in self.valves if one in taken))


@dataclass(frozen=True, slots=True, eq=False)
class Served:
    """What reaches one thing that the medium is there for."""

    piece: Piece
    cleaned: Cleaned
    routes: tuple[Route, ...]


def routes(arranged: Arranged, fault: Fault | None = None) -> tuple[Route, ...]:
    """Every route, shortest first; `fault` is what is wrong. Of more than MOST_ROUTES the first are given."""
    found: list[Route] = []
    for start in _starts(arranged):
        for route in _from(arranged, start, fault):
            found.append(route)
            if len(found) == MOST_ROUTES:
                break
    return tuple(sorted(found, key=lambda route: len(route.pieces)))


def served(arranged: Arranged, fault: Fault | None = None) -> tuple[Served, ...]:
    """What reaches each thing that is served, in the order of the ways."""
    every = routes(arranged, fault)
    return tuple(
        Served(piece, _cleaned(of), of)
        for piece in arranged.pieces
        if piece.way.serves
        for of in [_leading_to(piece, every)]
    )


def _leading_to(piece: Piece, every: tuple[Route, ...]) -> tuple[Route, ...]:
    """The different ways to a piece: routes that part only behind it are one."""
    parts = [route.upto(piece) for route in every if piece in route.pieces]
    return tuple({_key(route): route for route in parts}.values())


def appear(arranged: Arranged, fault: Fault) -> tuple[Route, ...]:
    """The routes that a fault opens: what runs otherwise when something is left out."""
    before = {_key(route) for route in routes(arranged)}
    return tuple(route for route in routes(arranged, fault) if _key(route) not in before)


def _key(route: Route) -> tuple[tuple[str, ...], tuple[str, ...], tuple[str, ...]]:
    """Which pieces it takes, which of them clean it, and which have to open."""
    ids = [tuple(piece.id for piece in pieces) for pieces in (route.pieces, route.cleaned_by, route.valves)]
    return ids[0], ids[1], ids[2]


def _starts(arranged: Arranged) -> tuple[str, ...]:
    driven = [piece for piece in arranged.pieces if piece.way.through in ("pump", "battery")]
    return tuple(dict.fromkeys(piece.end for piece in driven)) or tuple(sorted(arranged.open))[:1]


def _from(arranged: Arranged, start: str, fault: Fault | None) -> Iterator[Route]:
    """Depth first, by a stack of its own: what was taken, and the places that were crossed."""
    waiting: list[tuple[str, tuple[Piece, ...], frozenset[str]]] = [(start, (), frozenset({start}))]
    while waiting:
        place, taken, crossed = waiting.pop()
        for piece in reversed(arranged.pieces):
            onward = _onward(piece, place, fault)
            driven = piece.way.through in ("pump", "battery")
            if onward is None or driven or piece in taken:
                continue
            if onward in arranged.open:
                yield _route((*taken, piece), onward, fault)
            elif onward not in crossed:
                waiting.append((onward, (*taken, piece), crossed | {onward}))


def _onward(piece: Piece, place: str, fault: Fault | None) -> str | None:
    """Where a piece leads on to from a place, if it lets anything pass that way."""
    if not passes(piece, fault):
        return None
    if piece.start == place:
        return piece.end
    either = not (piece.way.serves or piece.way.through in ONE_WAY) or left_out(piece, fault)
    return piece.start if piece.end == place and either else None


def _route(pieces: tuple[Piece, ...], end: str, fault: Fault | None) -> Route:
    there = [piece for piece in pieces if not left_out(piece, fault)]
    cleaned = tuple(piece for piece in there if piece.way.cleans == "fine")
    return Route(pieces, end, cleaned, tuple(piece for piece in there if piece.way.through == "relief"))


def _cleaned(of: tuple[Route, ...]) -> Cleaned:
    if not of:
        return Cleaned.UNREACHED
    always = [route for route in of if not route.valves]
    dirty = [route for route in of if not route.cleaned_by]
    if not dirty:
        return Cleaned.ALWAYS
    if not any(route.cleaned_by for route in of):
        return Cleaned.NEVER
    return Cleaned.IN_PART if any(route in dirty for route in always) else Cleaned.BY_VALVE
