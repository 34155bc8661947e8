"""What a machine's circuits are likely to look like, by what it may have left the works with."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break
from spanbook.answers.flow.converted import Onward, onward
from spanbook.answers.flow.pieces import Arranged, arranged, positions_of
from spanbook.answers.left_works import left_works
from spanbook.answers.readings import Reading
from spanbook.reading.records import Assembly, Circuit, Series

# Of more arrangements than these the likeliest are told; the share of the others is told as well.
MOST = 6
Shares = Mapping[Assembly, Fraction]


@dataclass(frozen=True, slots=True, eq=False)
class Likely:
    """One arrangement, and how probable it is."""

    arranged: Arranged
    share: Fraction


@dataclass(frozen=True, slots=True, eq=False)
class MachineCircuit:
    """A circuit of one machine: the likeliest arrangements first, and the share of all that is not told.

    `after` is what conversions would make of those.
    """

    circuit: Circuit
    arrangements: tuple[Likely, ...]
    rest: Fraction
    after: tuple[Onward, ...]


def circuits_of(circuits: Mapping[str, Circuit], machine: str) -> tuple[Circuit, ...]:
    """The circuits of a machine (its id), in the order of their ids."""
    return tuple(circuit for circuit in circuits.values() if circuit.machine == machine)


def machine_circuit(
    fits: Fits,
    breaks_at: Callable[[tuple[Series, str]], Sequence[Break]],
    circuit: Circuit,
    reading: Reading,
    holds: Mapping[str, Assembly],
) -> MachineCircuit:
    """A circuit of an issued machine: what it is known to hold now, elsewhere what it left the works with."""
    ranked = [(Fraction(1), dict[str, Assembly]())]
    for position in positions_of(circuit):
        shares = _shares(fits, breaks_at, position, reading, holds)
        ranked = sorted(_with(ranked, position, shares), key=lambda one: -one[0])[: MOST * MOST]
    told = tuple(Likely(arranged(circuit, fitted), share) for share, fitted in ranked[:MOST])
    rest = 1 - sum((one.share for one in told), Fraction(0))
    after = onward(fits, reading, [one.arranged for one in told])
    return MachineCircuit(circuit, told, rest, after)


def _with(
    ranked: Sequence[tuple[Fraction, Mapping[str, Assembly]]], position: str, shares: Shares
) -> Iterator[tuple[Fraction, dict[str, Assembly]]]:
    for share, fitted in ranked:
        for assembly, of in shares.items():
            if of:
                yield share * of, {**fitted, position: assembly}
        if not any(shares.values()):
            yield share, dict(fitted)


def _shares(
    fits: Fits,
    breaks_at: Callable[[tuple[Series, str]], Sequence[Break]],
    position: str,
    reading: Reading,
    holds: Mapping[str, Assembly],
) -> Shares:
    if position in holds:
        return {holds[position]: Fraction(1)}
    if position not in fits.positions(fits.register.machines[reading.series.machine]):
        return {}
    segment = fits.at(reading, position).segment
    breaks = breaks_at((reading.series, position))
    return left_works(segment, breaks, reading.number, fits.register.at_position.get(position, ())).shares
