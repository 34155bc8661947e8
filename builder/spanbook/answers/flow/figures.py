"""How much goes where, in a state and with a fault: figures between two ends, from all that is known.

There are none where a size is missing that nobody can assume.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.flow.at_rest import GAUGE, REACH, SHARES, AtRest
from spanbook.answers.flow.faults import Fault, faults_in
from spanbook.answers.flow.inputs import Input, Known, Weigher, between, medium_inputs, medium_missing
from spanbook.answers.flow.pieces import Arranged, Piece
from spanbook.answers.flow.sized import Running, known
from spanbook.ground.flow.bounds import Between, Box
from spanbook.ground.flow.network import NoRest
from spanbook.ground.memo import kept
from spanbook.reading.records import CircuitState

# What moves a share by less than this is not worth a measurement.
_WORTH = 0.005
# A share that falls by this is worth a picture.
_HARM = 0.05
_THEN = "then:"


@dataclass(frozen=True, slots=True, eq=False)
class Missing:
    """A size without which there are no figures; `piece` is None for the medium and the state."""

    piece: Piece | None
    what: str


@dataclass(frozen=True, slots=True, eq=False)
class Figures:
    """What is worked out: flows by piece id in m³/s (amperes of current), pressures by place in Pa (volts).

    `cleaned` and `served` are the shares of `shares.py`, None where nothing here cleans finely. `inputs` are
    what it rests on, the weakest first.
    """

    flows: Mapping[str, Between]
    pressures: Mapping[str, Between]
    cleaned: Between | None
    served: Between | None
    inputs: tuple[Input, ...]

    def opens(self, piece: Piece) -> bool | None:
        """Whether a valve surely opens (True), stays shut (False) or may do either (None)."""
        found = self.flows[piece.id]
        return True if found.low > 0 else False if found.high <= 0 else None


@dataclass(frozen=True, slots=True, eq=False)
class Change:
    """What one fault changes, every size being the same before and after it.

    `moved` is by how much: `reach` of what reaches all that is served (m³/s), `gauge` of the pressure there,
    `cleaned` and `served` of the shares. `then` is what they are with the fault, of which `worked` tells all.
    """

    fault: Fault
    moved: Mapping[str, Between]
    then: Mapping[str, Between]
    worked: Worked

    @property
    def harms(self) -> bool:
        """Whether it may take from what is cleaned, or surely takes a tenth of what is served."""
        dirtier = any(self.moved[name].low < -_HARM for name in SHARES if name in self.moved)
        return dirtier or self.starves

    @property
    def starves(self) -> bool:
        """Whether it surely takes a tenth or more from what is served."""
        if REACH not in self.moved:
            return False
        moved, then = self.moved[REACH], self.then[REACH]
        return moved.high < 0 and -moved.low > 0.1 * then.high


@dataclass(frozen=True, eq=False)
class Worked:
    """One arrangement in one state; what is asked of it is worked out when it is asked, and then kept."""

    arranged: Arranged
    state: CircuitState
    weigher: Weigher
    fault: Fault | None = None

    @kept
    def missing(self) -> tuple[Missing, ...]:
        """What must be known before there are figures."""
        return (
            *(Missing(None, what) for what in medium_missing(self.arranged.circuit, self.state)),
            *(Missing(piece, what) for piece, one in self._known for what in one.missing),
        )

    def fault_at(self, piece: Piece) -> bool:
        """Whether this piece is what is wrong."""
        return self.fault is not None and self.fault.piece is piece

    @property
    def driven(self) -> bool:
        """Whether anything here moves it: what runs by its own weight or warmth has no figures."""
        return any(piece.way.through in ("pump", "battery") for piece in self.arranged.pieces)

    @property
    def bare(self) -> bool:
        """Whether all is known that figures need."""
        return not self.missing and self.driven and self.arranged.whole

    @kept
    def figures(self) -> Figures | None:
        """None where something is missing, or where what is pumped may have no way out."""
        if not self.bare:
            return None
        try:
            found = _box((self._at_rest,), lambda one: one[0]).bounds()
        except NoRest:
            return None
        return Figures(
            {piece.id: found[f"flow:{piece.id}"] for piece in self.arranged.pieces},
            {name.removeprefix("at:"): value for name, value in found.items() if name.startswith("at:")},
            found.get("cleaned"),
            found.get("served"),
            tuple(sorted(self._at_rest.inputs, key=lambda one: one.weight)),
        )

    @kept
    def changes(self) -> tuple[Change, ...]:
        """What each fault would change, in the order of the ways. Nothing of one that leaves the pump no
        way out.
        """
        if not self.bare:
            return ()
        return tuple(change for fault in faults_in(self.arranged) if (change := self._change(fault)))

    @kept
    def widest(self) -> tuple[Input, ...]:
        """What would narrow the shares, or the gauge, most if it were measured, most first."""
        told = self.figures.inputs if self.figures else ()
        ranked = sorted(told, key=lambda one: -self.moved.get(one.name, 0.0))
        return tuple(one for one in ranked if one.piece and self.moved.get(one.name, 0.0) > _WORTH)

    @kept
    def moved(self) -> Mapping[str, float]:
        """How far the shares, or in its own proportion the gauge, move with each input alone, by its name."""
        if self.figures is None:
            return {}
        wanted = SHARES if self.figures.cleaned else (GAUGE,)
        box = _box((self._at_rest,), lambda each: {name: each[0][name] for name in wanted if name in each[0]})
        moves: dict[str, float] = {}
        for name, widths in box.widths().items():
            scale = 1.0 if name in SHARES else abs(box.middle()[name]) or 1.0
            for unknown, width in widths.items():
                moves[unknown] = moves.get(unknown, 0.0) + width / scale
        return moves

    def _change(self, fault: Fault) -> Change | None:
        def changed(both: Sequence[Mapping[str, float]]) -> dict[str, float]:
            before, after = both
            told = [name for name in (REACH, GAUGE, *SHARES) if name in before]
            moved = {name: after[name] - before[name] for name in told}
            return moved | {_THEN + name: after[name] for name in told}

        faulty = Worked(self.arranged, self.state, self.weigher, fault)
        if faulty.missing:
            return None
        try:
            found = _box((self._at_rest, faulty._at_rest), changed).bounds()
        except NoRest:
            return None
        then = {name.removeprefix(_THEN): one for name, one in found.items() if name.startswith(_THEN)}
        return Change(fault, {name: found[name] for name in then}, then, faulty)

    @kept
    def _at_rest(self) -> AtRest:
        medium = medium_inputs(self.arranged.circuit, self.weigher)
        return AtRest(self.arranged, medium, self._known, self.fault)

    @kept
    def _known(self) -> list[tuple[Piece, Known]]:
        running = Running(self.state, self._most)
        return [(piece, known(piece, running, self.fault, self.weigher)) for piece in self.arranged.pieces]

    @kept
    def _most(self) -> float:
        """What the pumps give at the most, in m³/s."""
        found = [
            between(size)[1]
            for piece in self.arranged.pieces
            if piece.way.through == "pump"
            for size in piece.way.sizes
            if size.what == "gives"
        ]
        return sum(found) or 1.0


def _box(
    running: Sequence[AtRest], of: Callable[[Sequence[Mapping[str, float]]], Mapping[str, float]]
) -> Box:
    """Every state of the networks that what is known of them allows, each size the same in all of them."""
    inputs = {one.name: one for each in running for one in each.inputs}

    def figures(at: Sequence[float]) -> Mapping[str, float]:
        values = dict(zip(inputs, at, strict=True))
        return of([one.figures(values) for one in running])

    return Box(tuple(one.unknown for one in inputs.values()), figures)
