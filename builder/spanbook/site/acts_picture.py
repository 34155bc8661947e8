"""The acts around one part number as a picture: numbers in columns from old to new, acts between them.

A number that was brought back stands once more where it came back.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass

import networkx as nx

from spanbook.answers.act_years import ActYears
from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Supersession
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.page import Link
from spanbook.wording.orders import WITH_IT, given_up_words

MOST_NUMBERS = 40
COLUMN, ROW, BOX_WIDTH, BOX_HEIGHT, MARGIN = 190, 44, 126, 30, 8


@dataclass(frozen=True, slots=True)
class _Number:
    """A number, or what it is since an act brought it back."""

    key: PartKey
    back: Supersession | None = None

    @property
    def sort(self) -> tuple[PartKey, str]:
        return self.key, self.back.id if self.back else ""


_Node = _Number | Supersession


@dataclass(frozen=True, slots=True)
class Box:
    """A number; `this` marks the one the page is about, `ended` says of one that an act gives up for whom."""

    x: int
    y: int
    link: Link
    title: str
    this: bool
    ended: str


@dataclass(frozen=True, slots=True)
class Dot:
    """An act; `limited` when it is limited to some machines."""

    x: int
    y: int
    link: Link
    limited: bool


@dataclass(frozen=True, slots=True)
class Line:
    """From a number to an act, or from an act to what it gives, or needs `beside` that."""

    x1: int
    y1: int
    x2: int
    y2: int
    label: str
    beside: bool


@dataclass(frozen=True, slots=True)
class Picture:
    """`cut` tells that more numbers belong to it than are drawn."""

    width: int
    height: int
    boxes: tuple[Box, ...]
    dots: tuple[Dot, ...]
    lines: tuple[Line, ...]
    cut: bool


def picture(register: Register, years: ActYears, key: PartKey) -> Picture | None:
    """What became of a number and what it came from; None where there is no act."""
    if not register.parts[key].acted:
        return None
    around = _around(register, years, key)
    if around.number_of_edges() == 0:
        return None
    numbers = [node for node in around if isinstance(node, _Number)]
    places = _places(around)
    boxes = tuple(
        _box(register, around, node, places[node], node.key == key)
        for node in sorted(numbers, key=lambda node: node.sort)
    )
    acts = sorted((n for n in around if isinstance(n, Supersession)), key=lambda act: act.id)
    dots = tuple(
        Dot(*_middle(places[act]), Link(act.id, addresses.of_record(act)), bool(act.serials)) for act in acts
    )
    edges = around.edges(data=True)
    lines = tuple(
        _line(places, old, new, int(held["quantity"]), beside=bool(held.get("beside")))
        for old, new, held in edges
    )
    columns = 1 + max(x for x, _ in places.values()) // COLUMN
    rows = 1 + max(y for _, y in places.values()) // ROW
    ends = max((box.x + BOX_WIDTH + MARGIN for box in boxes), default=0)
    width = max((columns - 1) * COLUMN + BOX_WIDTH + 2 * MARGIN, ends)
    cut = len({node.key for node in numbers}) >= MOST_NUMBERS
    return Picture(width, rows * ROW + MARGIN, boxes, dots, lines, cut)


def _around(register: Register, years: ActYears, key: PartKey) -> nx.DiGraph[_Node]:
    """Numbers and acts reached forward and back from one, nearest first, up to a number of numbers."""
    made: nx.DiGraph[_Node] = nx.DiGraph()
    made.add_node(_Number(key))
    waiting, seen = [key], {key}
    for at in waiting:
        part = register.parts[at]
        for act in (*part.old_in, *part.new_in, *part.needed_in):
            olds = {register.key_of(act, use): use.quantity for use in act.old}
            news = {register.key_of(act, use): use.quantity for use in act.new}
            beside = {register.key_of(act, one.part): one.part.quantity for one in act.needs if one.part}
            fresh = [k for k in dict.fromkeys((*olds, *news, *beside)) if k not in seen]
            if len(seen) + len(fresh) > MOST_NUMBERS:
                continue
            for old, quantity in olds.items():
                made.add_edge(_left(years, old, act), act, quantity=quantity)
            for new, quantity in (olds if act.again else news).items():
                back = act if act in years.returns(new) else None
                made.add_edge(act, _Number(new, back), quantity=quantity)
            for need, quantity in beside.items():
                if not made.has_edge(act, _Number(need)):
                    made.add_edge(act, _Number(need), quantity=quantity, beside=True)
            seen.update(fresh)
            waiting.extend(fresh)
    return made


def _left(years: ActYears, key: PartKey, act: Supersession) -> _Number:
    """A number as an act takes it: as it was first, or since it was last brought back before that."""
    backs = [back for back in years.returns(key) if back is not act and years.since(act, back)]
    return _Number(key, max(backs, key=lambda back: (years.made(back).last or 0, back.id), default=None))


def _places(around: nx.DiGraph[_Node]) -> dict[_Node, tuple[int, int]]:
    """Left upper corners: each column a generation of numbers, acts half a column before what they give."""
    places: dict[_Node, tuple[int, int]] = {}
    rows: defaultdict[int, int] = defaultdict(int)
    for generation, nodes in enumerate(nx.topological_generations(_forward(around))):
        for node in sorted(nodes, key=_name):
            row = rows[generation]
            rows[generation] += 1
            places[node] = (generation * COLUMN // 2, row * ROW)
    return places


def _forward(around: nx.DiGraph[_Node]) -> nx.DiGraph[_Node]:
    """Without what leads back: acts of which each is limited to other machines may lead in a circle."""
    made = around.copy()
    while not nx.is_directed_acyclic_graph(made):
        made.remove_edge(*max(nx.find_cycle(made), key=lambda edge: _name(edge[0])))
    return made


def _name(node: _Node) -> str:
    return node.key.number if isinstance(node, _Number) else node.id


def _middle(place: tuple[int, int]) -> tuple[int, int]:
    return place[0] + MARGIN + BOX_WIDTH // 2, place[1] + MARGIN + BOX_HEIGHT // 2


def _box(
    register: Register, around: nx.DiGraph[_Node], node: _Number, place: tuple[int, int], this: bool
) -> Box:
    part = register.parts[node.key]
    acts = [act for act in around.successors(node) if isinstance(act, Supersession)]
    given_up = [act for act in acts if not act.new and not act.stays]
    ended = given_up_words(limited=all(act.serials for act in given_up)) if given_up else ""
    link = Link(part.number, addresses.of_part(node.key))
    return Box(place[0] + MARGIN, place[1] + MARGIN, link, part.name, this, ended)


def _line(
    places: dict[_Node, tuple[int, int]], start: _Node, end: _Node, quantity: int, *, beside: bool
) -> Line:
    x1, y1 = _middle(places[start])
    x2, y2 = _middle(places[end])
    if isinstance(start, _Number):
        x1 += BOX_WIDTH // 2
    if isinstance(end, _Number):
        x2 -= BOX_WIDTH // 2
    count = f"×{quantity}" if quantity > 1 else ""
    return Line(x1, y1, x2, y2, f"{_(WITH_IT)} {count}".strip() if beside else count, beside)
