"""Which number of a machine tells what is at a position, and by the number of which other plate one asks.

A position may follow a plate. A series tells of it if it is that plate's, if records give it factory spans
at positions that follow that plate (engines that were numbered on the gearbox), or if its machine has no
series of that plate. Any other series tells nothing by itself: one asks by the number of the plate followed.

Of one plate only the number that the machine was built under tells. Of several plates that may tell, the
first with anything recorded does, the plate that is followed before others.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from spanbook.answers.readings import Reading, machine_of, reading_of
from spanbook.ground.memo import Memo
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.register.units import Number
from spanbook.register.worn import Exactly, MayBe, shared


class Speaking:
    """For one register; `recorded` tells whether anything is recorded of a number at a position."""

    def __init__(self, register: Register, recorded: Callable[[Number, str], bool]) -> None:
        self.register = register
        self.recorded = recorded
        self._tells = Memo(self._tells_for)

    def of(self, reading: Reading, position: str) -> Reading:
        """A machine by the number of it that tells of a position."""
        if not reading.numbers:
            return reading
        built = reading.built
        telling = [one for one in built if self.plate_to_ask(one.series, position) is None] or list(built)
        follows = (self._follows(position) or "").casefold()
        telling.sort(key=lambda one: one.plate != follows)
        told = next((one for one in telling if self.recorded(one, position)), telling[0])
        return reading.by(told)

    def plate_to_ask(self, series: Series, position: str) -> str | None:
        """The plate by whose number one asks about a position; None where those of the series tell."""
        follows = self._follows(position)
        return None if follows is None or self._tells((series, follows.casefold())) else follows

    def _follows(self, position: str) -> str | None:
        """The plate that a position follows; nothing of one that no record has."""
        known = self.register.positions.get(position)
        return known.follows if known else None

    def _tells_for(self, asked: tuple[Series, str]) -> bool:
        """Whether a series tells for a plate."""
        series, plate = asked
        register = self.register
        others = {one.plate.casefold() for one in register.machines[series.machine].series}
        if plate == series.plate.casefold() or plate not in others:
            return True
        places = register.fitted_in.get(series.id, ())
        follow = (at for at in places if (self._follows(at) or "").casefold() == plate)
        spans = (fitting.span for at in follow for fitting in register.fittings[series.id, at])
        return any(span.fitted == "factory" for span in spans)

    def asked_by(self, may_be: MayBe, position: str) -> Iterator[MayBe]:
        """The numbers that a text may be; for one of several of a machine that which tells of a position."""
        others: dict[Number, MayBe] = {}
        but = frozenset(shared(may_be, self.register.units))
        for number in sorted(but):
            machine = machine_of(self.register, may_be.series, number)
            told = self.of(machine, position).own
            others[told] = MayBe(told.series, (Exactly(told.number),), unit=machine.unit)
        rest = MayBe(may_be.series, may_be.worn, but) if but else may_be
        if rest.lowest() is not None:
            yield rest
        yield from others.values()

    def reading(self, may_be: MayBe, number: int) -> Reading:
        """The machine that a text may be, by one of the numbers that tell of a position."""
        if may_be.unit:
            return machine_of(self.register, may_be.series, number)
        return reading_of(may_be.series, number)
