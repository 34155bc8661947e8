"""Acts that lead back to their start, and acts that need one another, for any machine there is.

A circle is one only if there may be a machine to which every act of it applies: the machines are cut
wherever an act of a knot begins or ends, and each sort of machine is looked at by itself. Nor is it one where
the years open it: what was said of a number before it was brought back is past. An act that may have brought
it back, or that others dispute, is looked at both ways.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice, pairwise, product
from typing import TYPE_CHECKING

from spanbook.answers.act_claims import Claims, counted
from spanbook.answers.bounds import pieces
from spanbook.answers.condition import Asked
from spanbook.ground.intervals import Covers
from spanbook.ground.knots import knots
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register

if TYPE_CHECKING:
    import networkx as nx

MOST_SORTS = 200  # of machines, in one knot of acts: beyond it the knot is told as if all applied together

MOST_UNSURE = 6  # acts that may have brought a number back: beyond it they are taken not to have

_Machine = tuple[str, int] | None  # a series and a number in it
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
    import networkx as nx  # it takes longer to load than most commands: only where there is a circle

    made: nx.DiGraph[PartKey] = nx.DiGraph()
    made.add_edges_from((edge.old, edge.to) for edge in edges)
    return made


def _circles(register: Register, edges: Sequence[_Edge], circle_in: _Finder) -> tuple[Circle, ...]:
    found_knots = knots((edge.old, edge.to) for edge in edges)
    knot_of = {key: at for at, knot in enumerate(found_knots) for key in knot}
    inside: dict[int, list[_Edge]] = {}
    for edge in edges:
        if knot_of[edge.old] == knot_of[edge.to]:
            inside.setdefault(knot_of[edge.old], []).append(edge)
    world = _World(Asked(register), Claims(register))
    found = (
        next((circle for together in world.ways(knot) if (circle := circle_in(together))), None)
        for knot in inside.values()
    )
    return tuple(sorted((c for c in found if c), key=lambda circle: [key for key, _ in circle]))


@dataclass(frozen=True, slots=True)
class _World:
    """What may apply together, of the acts of a knot."""

    asked: Asked
    claims: Claims

    def ways(self, knot: list[_Edge]) -> Iterator[list[_Edge]]:
        """The acts of a knot that may apply together and are not past: for every sort of machine there is,
        with and without each that may have brought a number back."""
        return (edges for together, machine in self._sorts(knot) for edges in self._opened(together, machine))

    def _sorts(self, knot: list[_Edge]) -> Iterator[tuple[list[_Edge], _Machine]]:
        """The acts of a knot that may apply together, for every sort of machine there is."""
        acts = {edge.act for edge in knot} | {back for edge in knot for back in self._backs(edge)}
        meant = {act: self.asked.meant(act.serials) for act in acts if act.serials}
        yield [edge for edge in knot if edge.act not in meant], None
        numbers = [
            (series, piece.first)
            for series, everyone in (self.asked.everyone.runs if meant else ())
            for piece in islice(
                pieces(everyone.possibly, [one.in_series(series) for one in meant.values()]), MOST_SORTS + 1
            )
        ]
        if len(numbers) > MOST_SORTS:
            yield knot, None
            return
        for series, number in numbers:
            missed = {act for act, one in meant.items() if number not in one.in_series(series).possibly}
            yield [edge for edge in knot if edge.act not in missed], (series, number)

    def _opened(self, together: list[_Edge], machine: _Machine) -> Iterator[list[_Edge]]:
        """The acts that are not past, with and without each of those that may have brought a number back."""
        backs = {back for edge in together for back in self._backs(edge)}
        covers = {back: self._covers(back, machine) for back in backs}
        sure = {b for b in backs if covers[b] is Covers.YES and not self.claims.against(b)}
        unsure = [back for back in backs - sure if covers[back] is not Covers.NO]
        edges = [edge for edge in together if not sure.intersection(self._backs(edge))]
        if len(unsure) > MOST_UNSURE:
            yield edges
            return
        for chosen in product((False, True), repeat=len(unsure)):
            out = {back for back, without in zip(unsure, chosen, strict=True) if without}
            brought = set(unsure) - out
            yield [e for e in edges if e.act not in out and not brought.intersection(self._backs(e))]

    def _backs(self, edge: _Edge) -> tuple[Supersession, ...]:
        return self.claims.years.past_by((edge.act, edge.old))

    def _covers(self, act: Supersession, machine: _Machine) -> Covers:
        """Whether an act applies to a machine; to one that no act is limited to where none is given."""
        if not act.serials:
            return Covers.YES
        if machine is None:
            return Covers.NO
        series, number = machine
        return self.asked.meant(act.serials).in_series(series).covers(number)


def _leading_back(edges: list[_Edge]) -> Circle | None:
    import networkx as nx

    made = _graph(edges)
    try:
        row = [old for old, *_ in nx.find_cycle(made)]
        return _row([*row, row[0]], edges)
    except nx.NetworkXNoCycle:
        return None


def _needing(edges: list[_Edge]) -> Circle | None:
    import networkx as nx

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
