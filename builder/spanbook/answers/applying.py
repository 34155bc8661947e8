"""The conversions that machines may take, asked by series and by position: no others are looked at."""

from __future__ import annotations

from collections.abc import Iterable
from typing import NamedTuple

from spanbook.answers.bounds import reach_of
from spanbook.answers.readings import Reading
from spanbook.answers.steps import Step, step_of
from spanbook.ground.intervals import Covers, Reach
from spanbook.ground.memo import Memo
from spanbook.reading.records import Conversion, Series
from spanbook.register.model import Register
from spanbook.register.units import Number


class Reaching(NamedTuple):
    """A conversion with what each of its spans in a series covers, of which there is one at the least."""

    conversion: Conversion
    reaches: tuple[Reach, ...]

    def covers(self, number: int) -> Covers:
        found = {reach.covers(number) for reach in self.reaches}
        return next((covers for covers in (Covers.YES, Covers.MAYBE) if covers in found), Covers.NO)


class Applying:
    """For one register: whatever is asked again is computed once."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self.in_series = Memo(self._in_series)
        self.at_place = Memo(self._at_place)
        self._step = Memo(self._step_of)

    def to(self, machine: Reading) -> tuple[Step, ...]:
        """Those that a machine may take, by any number that it was built under, in the order of their ids."""
        return self._steps((one, self.in_series(one.series)) for one in machine.built)

    def at(self, machine: Reading, position: str) -> tuple[Step, ...]:
        """Those of them that change a position."""
        return self._steps((one, self.at_place((one.series, position))) for one in machine.built)

    def _steps(self, asked: Iterable[tuple[Number, Iterable[Reaching]]]) -> tuple[Step, ...]:
        found: dict[Conversion, Covers] = {}
        for number, conversions in asked:
            for one in conversions:
                covers = one.covers(number.number)
                if covers is not Covers.NO and found.get(one.conversion) is not Covers.YES:
                    found[one.conversion] = covers
        each = sorted(found.items(), key=lambda pair: pair[0].id)
        return tuple(self._step((conversion, covers is Covers.MAYBE)) for conversion, covers in each)

    def _step_of(self, asked: tuple[Conversion, bool]) -> Step:
        conversion, maybe = asked
        return step_of(self.register, conversion, maybe=maybe)

    def _in_series(self, series: Series) -> tuple[Reaching, ...]:
        """Those with a span in a series."""
        return tuple(
            Reaching(one, tuple(reach_of(span, series) for span in one.serials if span.series == series.id))
            for one in self.register.conversions_in.get(series.id, ())
        )

    def _at_place(self, place: tuple[Series, str]) -> tuple[Reaching, ...]:
        """Those of a series that change a position."""
        series, position = place
        return tuple(one for one in self.in_series(series) if one.conversion.change_at(position))
