"""Who looked at a machine: the teardowns of every number, and of worn numbers those that it may be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import Reading
from spanbook.ground.memo import Memo
from spanbook.reading.records import Series, Teardown
from spanbook.register.worn import MayBe

_Looks = tuple[Mapping[int, tuple[Teardown, ...]], Sequence[tuple[Teardown, MayBe]]]


class Looks:
    """The teardowns of one register, by the numbers that they were read under."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self._looks = Memo(self._of_series)

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
        return self._looks(series)[0]

    def worn(self, series: Series) -> Sequence[tuple[Teardown, MayBe]]:
        """The teardowns whose worn number may be one of a series, with the numbers that it may be."""
        return self._looks(series)[1]

    def _of_series(self, series: Series) -> _Looks:
        """The teardowns by what their numbers are in a series, and by what they may be."""
        seen: dict[int, tuple[Teardown, ...]] = {}
        worn: list[tuple[Teardown, MayBe]] = []
        for teardown in self.fits.register.seen_in.get(series.id, ()):
            reading = self.fits.reading(teardown)
            here = [one for one in self.fits.possible(teardown) if one.series is series]
            if not reading:
                worn += ((teardown, numbers) for numbers in here)
            elif here:
                seen[reading.number] = (*seen.get(reading.number, ()), teardown)
        return seen, worn
