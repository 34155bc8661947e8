"""What one very machine may hold at a position, and how each of that comes apart on it: so it is known what
is renewed on a whole machine.

What was seen on what only may be the machine is left out here: its card tells it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass

from spanbook.answers.applicability import State
from spanbook.answers.strip_down import Sheet
from spanbook.answers.this_machine import ThisPosition
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Absence, Assembly

SheetOf = Callable[[Assembly], Sheet | None]


@dataclass(frozen=True, slots=True)
class MayHold:
    """An assembly that a machine may hold: whether it was seen on it, how surely it left the works with it
    and whether that is disputed, and whether it may have been changed to it.

    `sheet` is how it comes apart on that machine; None where nobody has told. `ask_by` is the plate whose
    number tells instead.
    """

    assembly: Assembly
    seen: bool
    left: Covers
    disputed: bool
    changed: bool
    ask_by: str | None
    sheet: Sheet | None


@dataclass(frozen=True, slots=True)
class Holding:
    """Everything that a machine may hold at a position: what was seen, then what it left the works with.

    `unknown` where nobody knows what is there; `ask_by` is the plate whose number tells instead.
    """

    position: str
    held: tuple[MayHold, ...]
    unknown: bool
    ask_by: str | None


def holding(place: ThisPosition, assemblies: Mapping[str, Assembly], sheet_of: SheetOf) -> Holding:
    """What a position of a machine may hold; a record that nothing is fitted there holds nothing."""
    named = dict.fromkeys(one for one in _named(place, assemblies) if not isinstance(one, Absence))
    held = tuple(may_hold(place, one, sheet_of(one)) for one in named)
    unknown = place.state is State.BLANK and not named
    return Holding(place.position, held, unknown, place.segment.ask_by)


def may_hold(place: ThisPosition, assembly: Assembly, sheet: Sheet | None) -> MayHold:
    """Whether and how a machine may hold one assembly at its position."""
    left = [one for one in place.left if one.fit.assembly is assembly]
    # Beside something that was supplied to order nothing is sure, not even the standard one.
    sure = not any(one.fit.span.option for one in place.left)
    covers = Covers.NO
    if left:
        surely = sure and any(one.fit.covers is Covers.YES for one in left)
        covers = Covers.YES if surely else Covers.MAYBE
    return MayHold(
        assembly,
        any(assembly.id in one.find.named for one in place.seen if one.exact),
        covers,
        bool(left) and (place.state is State.CONFLICT or any(one.disputed for one in left)),
        any(one.assembly is assembly for one in place.changed),
        place.segment.ask_by,
        sheet,
    )


def _named(place: ThisPosition, assemblies: Mapping[str, Assembly]) -> Iterator[Assembly]:
    """Every assembly that is told of at a position."""
    yield from (assemblies[id_] for one in place.seen if one.exact for id_ in one.find.named)
    yield from (one.fit.assembly for one in place.left)
    yield from (one.assembly for one in place.changed)
