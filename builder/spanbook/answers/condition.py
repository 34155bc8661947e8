"""For whom an act applies, or a way by several of them: which machines, and after which conversions.

Machines are runs of numbers in series, each known only as far as its bounds are: some surely belong, others
possibly. Asked of one machine or of every machine there is, a condition has three values, and a fourth where
it is asked of every machine and holds for some.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.bounds import reach_of
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.reading.records import SeriesSpan
from spanbook.register.model import Register


class Applies(StrEnum):
    """yes: to every machine asked of. maybe: the one asked of is in the uncertain part, or an act may not yet
    have been made in the year asked of. some: of all asked of, to some only. no: to none."""

    YES = "yes"
    MAYBE = "maybe"
    SOME = "some"
    NO = "no"


@dataclass(frozen=True, slots=True)
class Machines:
    """The machines that surely and possibly are meant: by series (its id, in their order), those with any."""

    runs: tuple[tuple[str, Reach], ...] = ()

    @classmethod
    def of(cls, runs: Iterable[tuple[str, Reach]]) -> Machines:
        return cls(tuple(sorted(((id_, r) for id_, r in runs if r.possibly), key=lambda run: run[0])))

    def in_series(self, id_: str) -> Reach:
        return dict(self.runs).get(id_, NOWHERE)

    def __and__(self, other: Machines) -> Machines:
        return Machines.of((id_, _both(mine, other.in_series(id_))) for id_, mine in self.runs)

    def __or__(self, other: Machines) -> Machines:
        ids = {id_ for id_, _ in (*self.runs, *other.runs)}
        return Machines.of((id_, _either(self.in_series(id_), other.in_series(id_))) for id_ in ids)

    def __le__(self, other: Machines) -> bool:
        """Whether whatever is surely meant here is surely meant there, and likewise with the possible."""
        return all(
            mine.surely <= other.in_series(id_).surely and mine.possibly <= other.in_series(id_).possibly
            for id_, mine in self.runs
        )

    def without(self, other: Machines) -> Machines:
        """Those not meant there: surely where not possibly meant there, possibly where not surely."""
        return Machines.of((id_, _less(mine, other.in_series(id_))) for id_, mine in self.runs)


NOWHERE = Reach(SpanSet(), SpanSet())


def _both(one: Reach, other: Reach) -> Reach:
    return Reach(one.surely & other.surely, one.possibly & other.possibly)


def _either(one: Reach, other: Reach) -> Reach:
    return Reach(one.surely | other.surely, one.possibly | other.possibly)


def _less(one: Reach, other: Reach) -> Reach:
    return Reach(one.surely - other.possibly, one.possibly - other.surely)


@dataclass(frozen=True, slots=True)
class Condition:
    """For which machines it is meant, and after which conversions (ids in their order).

    `machines` is None where it is meant for every machine asked of; `rest` where they are those to which
    nothing else applies. `made` and `unmade` are acts of which the year is not sure: that they were, and
    were not, made by the year asked of.
    """

    meant: Applies
    machines: Machines | None = None
    after: tuple[str, ...] = ()
    rest: bool = False
    made: tuple[str, ...] = ()
    unmade: tuple[str, ...] = ()

    @property
    def applies(self) -> Applies:
        return Applies.MAYBE if self.made or self.unmade else self.meant

    @property
    def plain(self) -> bool:
        return self.applies is Applies.YES and not self.after

    @property
    def sort(self) -> tuple[tuple[str, ...], ...]:
        """What it holds by, beside the machines: conditions of one sort can be put together."""
        return self.after, self.made, self.unmade


ALWAYS = Condition(Applies.YES)


class Asked:
    """What a question is about: one machine when a reading is given, else every machine there is; in a year
    when one is given, else today."""

    def __init__(self, register: Register, reading: Reading | None = None, year: int | None = None) -> None:
        self.register = register
        self.reading = reading
        self.year = year
        if reading:
            number = SpanSet.run(reading.number, reading.number)
            self.everyone = Machines(((reading.series.id, Reach(number, number)),))
        else:
            issued = ((series.id, series.issued) for series in register.series.values())
            self.everyone = Machines.of((id_, Reach(numbers, numbers)) for id_, numbers in issued)

    def meant(self, spans: tuple[SeriesSpan, ...]) -> Machines:
        """Those asked of that any of some spans covers; everyone where there is none."""
        if not spans:
            return self.everyone
        if self.reading:
            return self._if_meant(spans, self.reading)
        found = Machines()
        for span in spans:
            if span.series in self.register.series:
                series = self.register.series[span.series]
                found |= Machines.of([(series.id, reach_of(span, series))])
        return found & self.everyone

    def _if_meant(self, spans: tuple[SeriesSpan, ...], reading: Reading) -> Machines:
        """The one machine asked of, surely or possibly, by any number that it was built under; or nobody."""
        covers = covered_by(spans, reading)
        if covers is Covers.MAYBE:
            number = SpanSet.run(reading.number, reading.number)
            return Machines(((reading.series.id, Reach(SpanSet(), number)),))
        return self.everyone if covers is Covers.YES else Machines()

    def applies(self, machines: Machines) -> Applies:
        if machines == self.everyone:
            return Applies.YES
        if not machines.runs:
            return Applies.NO
        return Applies.MAYBE if self.reading else Applies.SOME


def may_concern(spans: tuple[SeriesSpan, ...], reading: Reading | None) -> bool:
    """Whether what is limited to some spans, or to none, may apply to one machine; to any without one."""
    return reading is None or not spans or covered_by(spans, reading) is not Covers.NO


def covered_by(spans: Iterable[SeriesSpan], reading: Reading) -> Covers:
    """Whether spans cover a machine, by any number that it was built under."""
    found = {
        reach_of(span, one.series).covers(one.number)
        for one in reading.built
        for span in spans
        if span.series == one.series.id
    }
    return next((covers for covers in (Covers.YES, Covers.MAYBE) if covers in found), Covers.NO)
