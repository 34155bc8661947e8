"""Who looked at a machine: the teardowns of every number, and of worn numbers those that it may be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading
from spanbook.answers.worn import MayBe
from spanbook.reading.records import Series, Teardown

_Looks = tuple[dict[Series, dict[int, tuple[Teardown, ...]]], dict[Series, list[tuple[Teardown, MayBe]]]]


class Looks:
    """The teardowns of one register, by the numbers that they were read under."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits

    def of(self, reading: Reading) -> tuple[Teardown, ...]:
        """The teardowns of this very machine, under any of its numbers."""
        known = reading.numbers or (reading.own,)
        found = (self.seen(one.series).get(one.number, ()) for one in known)
        return tuple(dict.fromkeys(teardown for each in found for teardown in each))

    def perhaps(self, reading: Reading) -> tuple[Teardown, ...]:
        """The teardowns of worn numbers that may be one of the machine's."""
        found = (
            teardown
            for one in reading.numbers or (reading.own,)
            for teardown, numbers in self.worn(one.series)
            if numbers.lowest(one.number, one.number) is not None
        )
        return tuple(dict.fromkeys(found))

    def seen(self, series: Series) -> Mapping[int, tuple[Teardown, ...]]:
        """The teardowns of a series whose number can be read, by their numbers."""
        return self._looks[0].get(series, {})

    def worn(self, series: Series) -> Sequence[tuple[Teardown, MayBe]]:
        """The teardowns whose worn number may be one of a series, with the numbers that it may be."""
        return self._looks[1].get(series, [])

    @cached_property
    def _looks(self) -> _Looks:
        """The teardowns by what their numbers are, and by what they may be."""
        seen: dict[Series, dict[int, tuple[Teardown, ...]]] = {}
        worn: dict[Series, list[tuple[Teardown, MayBe]]] = {}
        for teardown in self.fits.register.teardowns.values():
            reading = self.fits.reading(teardown)
            if reading:
                of_series = seen.setdefault(reading.series, {})
                of_series[reading.number] = (*of_series.get(reading.number, ()), teardown)
            else:
                for numbers in self.fits.possible(teardown):
                    worn.setdefault(numbers.series, []).append((teardown, numbers))
        return seen, worn
