"""Acts that lead back to their start, and acts that need one another, for any machine there is.

A circle is one only if there may be a machine to which every act of it applies: the machines are cut
wherever an act of a knot begins or ends, and each sort of machine is looked at by itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise

import networkx as nx

from spanbook.answers.act_claims import counted
from spanbook.answers.bounds import pieces
from spanbook.answers.condition import Asked
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

MOST_SORTS = 200  # of machines, in one knot of acts: beyond it the knot is told as if all applied together

Circle = tuple[tuple[PartKey, Supersession], ...]  # each number with the act that leaves it


@dataclass(frozen=True, slots=True)
class _Edge:
    """From an old number to a new one, or to one that must go with it."""

    old: PartKey
    to: PartKey
    act: Supersession
    need: bool


_Finder = Callable[[list[_Edge]], Circle | None]


def cycles(register: Register) -> tuple[Circle, ...]:
    """One whole circle of every knot of acts that lead back to their start."""
    return _circles(register, [edge for edge in _edges(register) if not edge.need], _leading_back)


def circles_of_needs(register: Register) -> tuple[Circle, ...]:
    """One whole circle of every knot of acts of which one needs what is replaced by what needs its start."""
    return _circles(register, list(_edges(register)), _needing)


def graph(register: Register) -> nx.DiGraph[PartKey]:
    """Numbers, with an edge from each old to each new."""
    return _graph(edge for edge in _edges(register) if not edge.need)


def _edges(register: Register) -> Iterator[_Edge]:
    for act in register.supersessions.values():
        parts = tuple(need.part for need in act.needs if need.part)
        for old in counted(register, act, act.old):
            yield from (_Edge(old, new, act, need=False) for new in counted(register, act, act.new))
            yield from (_Edge(old, beside, act, need=True) for beside in counted(register, act, parts))


def _graph(edges: Iterable[_Edge]) -> nx.DiGraph[PartKey]:
    made: nx.DiGraph[PartKey] = nx.DiGraph()
    made.add_edges_from((edge.old, edge.to) for edge in edges)
    return made


def _circles(register: Register, edges: Sequence[_Edge], circle_in: _Finder) -> tuple[Circle, ...]:
    knots = nx.strongly_connected_components(_graph(edges))
    knot_of = {key: at for at, knot in enumerate(knots) for key in knot}
    inside: dict[int, list[_Edge]] = {}
    for edge in edges:
        if knot_of[edge.old] == knot_of[edge.to]:
            inside.setdefault(knot_of[edge.old], []).append(edge)
    asked = Asked(register)
    found = (
        next((circle for together in _sorts(asked, knot) if (circle := circle_in(together))), None)
        for knot in inside.values()
    )
    return tuple(sorted((c for c in found if c), key=lambda circle: [key for key, _ in circle]))


def _sorts(asked: Asked, knot: list[_Edge]) -> Iterator[list[_Edge]]:
    """The acts of a knot that may apply together, for every sort of machine there is."""
    meant = {edge.act: asked.meant(edge.act.serials) for edge in knot if edge.act.serials}
    yield [edge for edge in knot if edge.act not in meant]
    numbers = [
        (series, piece.first)
        for series, everyone in (asked.everyone.runs if meant else ())
        for piece in islice(
            pieces(everyone.possibly, [one.in_series(series) for one in meant.values()]), MOST_SORTS + 1
        )
    ]
    if len(numbers) > MOST_SORTS:
        yield knot
        return
    for series, number in numbers:
        missed = {act for act, one in meant.items() if number not in one.in_series(series).possibly}
        yield [edge for edge in knot if edge.act not in missed]


def _leading_back(edges: list[_Edge]) -> Circle | None:
    made = _graph(edges)
    try:
        row = [old for old, *_ in nx.find_cycle(made)]
        return _row([*row, row[0]], edges)
    except nx.NetworkXNoCycle:
        return None


def _needing(edges: list[_Edge]) -> Circle | None:
    made = _graph(edges)
    for edge in (one for one in edges if one.need):
        if nx.has_path(made, edge.to, edge.old):
            back: list[PartKey] = nx.shortest_path(made, edge.to, edge.old)
            return ((edge.old, edge.act), *_row(back, edges))
    return None


def _row(numbers: list[PartKey], edges: list[_Edge]) -> Circle:
    """Each number of a row but the last, with the act that leads to the next."""
    acts = {(edge.old, edge.to): edge.act for edge in edges}
    return tuple((old, acts[old, to]) for old, to in pairwise(numbers))
