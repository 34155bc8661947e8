"""Each sort of way as a law: which sizes it takes, and what becomes of it when it is left out.

`WANTED` is the one list of sizes by sort; the rules go by it too.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from spanbook.answers.flow.faults import Fault, left_out, passes
from spanbook.answers.flow.inputs import (
    COEFFICIENT,
    FULLY_OPEN,
    HOLE,
    LITTLE,
    WARM,
    Found,
    Input,
    Known,
    Values,
    Weigher,
    viscosity,
)
from spanbook.answers.flow.pieces import Piece
from spanbook.ground.flow import laws
from spanbook.ground.units import Quantity
from spanbook.reading.records import CircuitState

_RESISTS = (("passes", "at-drop"), ("at-warmth",))
# Which sizes each sort takes: first those without which it has no figures, then those that may be left out.
WANTED: Mapping[str, tuple[tuple[str, ...], tuple[str, ...]]] = {
    "pipe": ((), ("bore", "length")),
    "jet": (("bore",), ("coefficient",)),
    "gap": (("gap", "width", "depth", "count"), ()),
    "element": _RESISTS,
    "packing": _RESISTS,
    "clearance": _RESISTS,
    "strainer": ((), sum(_RESISTS, ())),
    "cooler": ((), sum(_RESISTS, ())),
    "pump": (("gives",), ("at-speed",)),
    "relief": (("opens-at",), ("fully-open-at", "seat-bore")),
    "check": ((), ("seat-bore",)),
    "cock": ((), ("bore",)),
    "plug": ((), ("bore",)),
    "joint": ((), ("bore",)),
    "battery": (("volts", "resistance"), ()),
    "winding": (("resistance",), ()),
    "contact": (("resistance",), ()),
}


# What each size measures.
MEASURES: Mapping[str, Quantity] = {
    **dict.fromkeys(("bore", "length", "gap", "width", "depth", "seat-bore"), Quantity.LENGTH),
    **dict.fromkeys(("passes", "gives"), Quantity.FLOW),
    **dict.fromkeys(("at-drop", "opens-at", "fully-open-at"), Quantity.PRESSURE),
    **dict.fromkeys(("coefficient", "count"), Quantity.NUMBER),
    "at-warmth": Quantity.WARMTH,
    "at-speed": Quantity.SPEED,
    "volts": Quantity.TENSION,
    "resistance": Quantity.RESISTANCE,
}


@dataclass(frozen=True, slots=True, eq=False)
class Running:
    """What a law depends on beside its own sizes: how it runs, and what the pump gives at the most, in
    m³/s.
    """

    state: CircuitState
    most: float


def known(piece: Piece, running: Running, fault: Fault | None, weigher: Weigher) -> Known:
    """What a piece does; without a law where a size is missing that nobody can assume."""
    found = Found(piece, weigher)
    if left_out(piece, fault):
        return _hole(found)
    if not passes(piece, fault):
        return Known((), (), lambda values: laws.Shut())
    missing = found.missing(*WANTED[piece.way.through][0])
    if missing:
        return Known((), missing, lambda values: laws.Shut())
    return _LAWS[piece.way.through](found, running)


def _needed(found: Found, what: str, assumed: tuple[float, float] | None = None) -> Input:
    one = found.input(what, assumed)
    assert one is not None, f"{found.piece.id} was asked for a size that it lacks: {what}"
    return one


def _hole(found: Found) -> Known:
    """Open: a hole of its own bore where somebody measured that, and a rounded edge as likely as a sharp
    one.
    """
    bore = {"relief": "seat-bore", "check": "seat-bore"}.get(found.piece.way.through, "bore")
    # A jet's own bore goes with it.
    hole = _needed(found, bore if found.piece.way.through != "jet" else "hole-bore", HOLE)
    through = _needed(found, "hole-coefficient", COEFFICIENT)

    def law(values: Values) -> laws.Law:
        return laws.Jet(values[hole.name], values[through.name], values["medium:density"])

    return Known((hole, through), (), law)


def _pipe(found: Found, running: Running) -> Known:
    bore, length = found.input("bore"), found.input("length")
    if bore is None or length is None:
        return _little(found, running)

    def law(values: Values) -> laws.Law:
        thick = viscosity(values, running.state.warmth or 0)
        return laws.Pipe(values[bore.name], values[length.name], thick, values["medium:density"])

    return Known((bore, length), (), law)


def _little(found: Found, running: Running, *, one_way: bool = False) -> Known:
    """What nobody measured and what resists little: so much is lost in it when all goes through."""
    loses = _needed(found, "loses", LITTLE)

    def law(values: Values) -> laws.Law:
        gives = running.most / values[loses.name]
        return laws.Relief(0.0, gives) if one_way else laws.Straight(gives)

    return Known((loses,), (), law)


def _jet(found: Found, running: Running) -> Known:
    bore, through = _needed(found, "bore"), _needed(found, "coefficient", COEFFICIENT)

    def law(values: Values) -> laws.Law:
        return laws.Jet(values[bore.name], values[through.name], values["medium:density"])

    return Known((bore, through), (), law)


def _slots(found: Found, running: Running) -> Known:
    count, width, gap, depth = (_needed(found, what) for what in ("count", "width", "gap", "depth"))

    def law(values: Values) -> laws.Law:
        thick = viscosity(values, running.state.warmth or 0)
        return laws.Slots(values[count.name], values[width.name], values[gap.name], values[depth.name], thick)

    return Known((count, width, gap, depth), (), law)


def _resists(found: Found, running: Running) -> Known:
    """It passed so much once, at a drop and a warmth; thicker oil goes through in proportion less."""
    if found.missing("passes", "at-drop"):
        return _little(found, running)
    passed, drop = _needed(found, "passes"), _needed(found, "at-drop")
    warm = _needed(found, "at-warmth", WARM)

    def law(values: Values) -> laws.Law:
        gives = values[passed.name] / values[drop.name]
        if "medium:at-hundred" not in values:
            return laws.Straight(gives)
        then, now = (viscosity(values, at) for at in (values[warm.name], running.state.warmth or 0))
        return laws.Straight(gives * then / now)

    return Known((passed, drop, warm), (), law)


def _pump(found: Found, running: Running) -> Known:
    gives = _needed(found, "gives")
    speed = found.input("at-speed")
    if speed is None:
        return Known((gives,), (), lambda values: laws.Given(values[gives.name]))
    if running.state.speed is None:
        return Known((), ("speed",), lambda values: laws.Shut())
    turns = float(running.state.speed)
    return Known(
        (gives, speed), (), lambda values: laws.Given(values[gives.name] * turns / values[speed.name])
    )


def _relief(found: Found, running: Running) -> Known:
    opens, fully = _needed(found, "opens-at"), found.input("fully-open-at")
    times = None if fully else _needed(found, "fully-open-times", FULLY_OPEN)

    def law(values: Values) -> laws.Law:
        at = values[opens.name]
        end = values[fully.name] if fully else at * values[times.name] if times else at
        return laws.Relief(at, running.most / max(end - at, at / 100))

    return Known(tuple(one for one in (opens, fully, times) if one), (), law)


def _battery(found: Found, running: Running) -> Known:
    volts, loses = _needed(found, "volts"), _needed(found, "resistance")
    return Known((volts, loses), (), lambda values: laws.Cell(values[volts.name], 1 / values[loses.name]))


def _winding(found: Found, running: Running) -> Known:
    loses = _needed(found, "resistance")
    return Known((loses,), (), lambda values: laws.Straight(1 / values[loses.name]))


_LAWS: Mapping[str, Callable[[Found, Running], Known]] = {
    "pipe": _pipe,
    "jet": _jet,
    "gap": _slots,
    "element": _resists,
    "packing": _resists,
    "clearance": _resists,
    "strainer": _resists,
    "cooler": _resists,
    "pump": _pump,
    "relief": _relief,
    "check": lambda found, running: _little(found, running, one_way=True),
    "battery": _battery,
    "winding": _winding,
    "contact": _winding,
}
