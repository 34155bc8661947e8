"""The circuits of one machine: as it may have left the works, and what conversions would make of them."""

from __future__ import annotations

from collections import ChainMap
from dataclasses import dataclass
from itertools import product
from math import prod

from spanbook.answers.applicability import Fits, State
from spanbook.answers.flow.converted import Onward, onward
from spanbook.answers.flow.over_series import MOST_AT_ONCE
from spanbook.answers.flow.pieces import Arranged, arranged, positions_of
from spanbook.answers.readings import Reading
from spanbook.reading.records import Assembly, Circuit


@dataclass(frozen=True, slots=True, eq=False)
class FlowHere:
    """`left` is every arrangement that it may have left the works with, `sure` if it can only be the one.

    `after` are the others that conversions lead to, each with the fewest. Where more is possible than can be
    told both are empty.
    """

    circuit: Circuit
    left: tuple[Arranged, ...]
    sure: bool
    after: tuple[Onward, ...]


def flow_here(fits: Fits, circuit: Circuit, reading: Reading) -> FlowHere:
    """A circuit of the machine with an issued number."""
    held = {position: _held(fits, reading, position) for position in positions_of(circuit)}
    if prod(len(assemblies) or 1 for _, assemblies in held.values()) > MOST_AT_ONCE:
        return FlowHere(circuit, (), False, ())
    each = [[{at: one} for one in assemblies] or [{}] for at, (_, assemblies) in held.items()]
    left = tuple(arranged(circuit, dict(ChainMap(*made))) for made in product(*each))
    sure = all(state in (State.SETTLED, None) for state, _ in held.values())
    return FlowHere(circuit, left, sure, onward(fits, reading, left))


def _held(fits: Fits, reading: Reading, position: str) -> tuple[State | None, tuple[Assembly, ...]]:
    """What it may have left the works with; a position that the machine lacks has nothing, surely."""
    if position not in fits.positions(fits.register.machines[reading.series.machine]):
        return None, ()
    segment = fits.at(reading, position).segment
    return segment.state, tuple(dict.fromkeys(fit.assembly for fit in segment.fits))
