"""A circuit with what is fitted at its positions: one network of ways between places.

Ports belong to the position and ways to the assembly, so that whatever fits there hangs between the same
places.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.reading.records import Assembly, Circuit, Way

ONE_WAY = frozenset({"pump", "relief", "check"})
# Nothing passes these until they are opened or left out.
SHUT = frozenset({"cock", "plug", "joint"})


@dataclass(frozen=True, slots=True, eq=False)
class Piece:
    """One way of the network. `id` tells it from all others: the assembly's id before the way's.

    `start` and `end` are places of the circuit, or places inside a position as `position/place`.
    """

    id: str
    way: Way
    of: Assembly | Circuit
    start: str
    end: str


@dataclass(frozen=True, slots=True, eq=False)
class Arranged:
    """A circuit with one assembly at each of its positions that is known; `without` have no ways recorded.

    `empty` are the positions of the circuit of which it is not said what is fitted.
    """

    circuit: Circuit
    fitted: Mapping[str, Assembly]
    pieces: tuple[Piece, ...]
    without: tuple[Assembly, ...]
    empty: tuple[str, ...]

    @property
    def open(self) -> frozenset[str]:
        return frozenset(place.id for place in self.circuit.places if place.open)

    @property
    def whole(self) -> bool:
        """Whether the ways through everything fitted are recorded: else nothing can be told of them."""
        return not self.without and not self.empty

    def piece(self, id_: str) -> Piece | None:
        """By its id, or by the end of it where only one piece has that."""
        exact = [piece for piece in self.pieces if piece.id == id_]
        found = exact or [piece for piece in self.pieces if piece.way.id == id_]
        return found[0] if len(found) == 1 else None


def positions_of(circuit: Circuit) -> tuple[str, ...]:
    """The positions that hang in a circuit, in its order."""
    return tuple(dict.fromkeys(port.position for port in circuit.ports))


def arranged(circuit: Circuit, fitted: Mapping[str, Assembly]) -> Arranged:
    """The network of a circuit with these assemblies, each by its position; others are left out."""
    positions = positions_of(circuit)
    here = {position: fitted[position] for position in positions if position in fitted}
    return Arranged(
        circuit,
        here,
        tuple(_pieces(circuit, here)),
        tuple(assembly for assembly in here.values() if not assembly.ways),
        tuple(position for position in positions if position not in here),
    )


def _pieces(circuit: Circuit, fitted: Mapping[str, Assembly]) -> Iterator[Piece]:
    for way in circuit.ways:
        yield Piece(way.id, way, circuit, way.start, way.end)
    for position, assembly in fitted.items():
        leads = {port.port: port.place for port in circuit.ports if port.position == position}
        for way in assembly.ways:
            start, end = (leads.get(name, f"{position}/{name}") for name in (way.start, way.end))
            yield Piece(f"{assembly.id}/{way.id}", way, assembly, start, end)
