"""An arrangement as ways in rows and side by side, from where it is open to where it is open again.

Most networks of an engine are such a tree, and can be drawn as one; of the others only a table can be made.
"""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.flow.pieces import SHUT, Arranged, Piece

# Two names for what is open, as it begins and as it ends there.
BEGINNING, END = ("beginning",), ("end",)
_Place = str | tuple[str]


@dataclass(frozen=True, slots=True, eq=False)
class Row:
    """One after another; `places` are those between them."""

    parts: tuple[Tree, ...]
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class Beside:
    """Side by side, what serves first and a valve last."""

    parts: tuple[Tree, ...]


Tree = Piece | Row | Beside


@dataclass(slots=True, eq=False)
class _Edge:
    start: _Place
    end: _Place
    tree: Tree


def tree(arranged: Arranged) -> Tree | None:
    """The network as one tree; None where its ways are not in rows and side by side only."""
    edges = [_edge(arranged, piece) for piece in arranged.pieces if piece.way.through not in SHUT]
    while len(edges) > 1:
        joined = _beside(edges) or _row(edges)
        if joined is None:
            return None
        edges = joined
    whole = bool(edges) and (edges[0].start, edges[0].end) == (BEGINNING, END)
    return edges[0].tree if whole else None


def pieces_in(of: Tree) -> tuple[Piece, ...]:
    """All ways of a tree, in its order."""
    if isinstance(of, Piece):
        return (of,)
    return tuple(piece for part in of.parts for piece in pieces_in(part))


def _edge(arranged: Arranged, piece: Piece) -> _Edge:
    start: _Place = BEGINNING if piece.start in arranged.open else piece.start
    end: _Place = END if piece.end in arranged.open else piece.end
    return _Edge(start, end, piece)


def _beside(edges: list[_Edge]) -> list[_Edge] | None:
    """The first two ways between the same places, as one."""
    first: dict[tuple[_Place, _Place], _Edge] = {}
    for edge in edges:
        known = first.setdefault((edge.start, edge.end), edge)
        if known is not edge:
            parts = [part for tree in (known.tree, edge.tree) for part in _parts(tree, Beside)]
            parts.sort(key=_aside)
            both = _Edge(edge.start, edge.end, Beside(tuple(parts)))
            return [both if one is known else one for one in edges if one is not edge]
    return None


def _aside(of: Tree) -> tuple[bool, bool]:
    """What serves stands first, what only opens at times last."""
    inside = pieces_in(of)
    return not any(piece.way.serves for piece in inside), inside[0].way.through == "relief"


def _row(edges: list[_Edge]) -> list[_Edge] | None:
    """The first two ways that meet at a place where nothing else does, as one."""
    for before in edges:
        place = before.end
        if not isinstance(place, str):
            continue
        coming = [edge for edge in edges if edge.end == place]
        going = [edge for edge in edges if edge.start == place]
        if len(coming) == len(going) == 1 and going[0] is not before:
            row = _Edge(before.start, going[0].end, _joined(before.tree, place, going[0].tree))
            return [row if one is before else one for one in edges if one is not going[0]]
    return None


def _joined(before: Tree, place: str, after: Tree) -> Row:
    first, then = _as_row(before), _as_row(after)
    return Row((*first.parts, *then.parts), (*first.places, place, *then.places))


def _as_row(of: Tree) -> Row:
    return of if isinstance(of, Row) else Row((of,), ())


def _parts(of: Tree, sort: type[Beside]) -> tuple[Tree, ...]:
    return of.parts if isinstance(of, sort) else (of,)
