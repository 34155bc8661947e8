"""Serial numbers of which some digits cannot be read: the machines that they may be, without listing them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from spanbook.ground.intervals import SpanSet
from spanbook.ground.memo import Memo
from spanbook.ground.serials import Worn, fold
from spanbook.reading.records import Series, Teardown, Unit
from spanbook.register.units import Units


@dataclass(frozen=True, slots=True)
class Exactly:
    """One number, as the digits of it that can all be read."""

    number: int

    def first_from(self, number: int) -> int | None:
        return self.number if number <= self.number else None


@dataclass(frozen=True, slots=True)
class MayBe:
    """The issued numbers of a series that a text may be; there are thousands where digits are worn away.

    `but` are those of them that it is asked about by other numbers; of a machine that is known by several
    this is one of them, and `unit` its record.
    """

    series: Series
    worn: tuple[Worn | Exactly, ...]
    but: frozenset[int] = frozenset()
    unit: Unit | None = None

    def lowest(self, first: int = 0, last: int | None = None) -> int | None:
        """The lowest of them from `first` to `last` (None: no end)."""
        for span in SpanSet.run(first, last) & self.series.issued:
            number = self._from(span.first)
            while number in self.but:
                number = self._from(number + 1)
            if number is not None and number in span:
                return number
        return None

    def _from(self, number: int) -> int | None:
        found = (place for one in self.worn if (place := one.first_from(number)) is not None)
        return min(found, default=None)


def _beginning(text: str) -> str:
    """As much of a serial number as tells most stamps apart."""
    return fold(text)[:3]


def possible_of(
    teardowns: Iterable[Teardown],
    series: Iterable[Series],
    known: Mapping[Teardown, tuple[MayBe, ...]] = MappingProxyType({}),
) -> dict[Teardown, tuple[MayBe, ...]]:
    """The issued numbers that the serial number of each teardown may be, in its series if it names one: as
    they are `known`, or read."""
    stamps = _Stamps(series)
    return {one: known[one] if one in known else tuple(stamps.of(one)) for one in teardowns}


def shared(may_be: MayBe, units: Units) -> Sequence[int]:
    """Those of the numbers that a text may be that are one of several of a machine, rising."""
    known = units.shared(may_be.series)
    if known and (exact := only((may_be,))):
        return [number for number in exact[1:] if number in known]
    return [number for number in known if may_be.lowest(number, number) is not None]


def series_of(may_be: MayBe, units: Units) -> Iterator[str]:
    """The ids of the series of a text, and of the other numbers of every machine that it may be."""
    yield may_be.series.id
    known = units.of_series.get(may_be.series.id, {})
    for number in shared(may_be, units):
        yield from (one.series.id for one in units.all_of(known[number]))


class _Stamps:
    """The stamps of series, by the characters that begin them: of many series few need to be asked."""

    def __init__(self, series: Iterable[Series]) -> None:
        self._series = tuple(series)
        self._alike: Memo[str, tuple[Series, ...]] = Memo(self._may_begin)

    def of(self, teardown: Teardown) -> Iterator[MayBe]:
        """The series in which a serial number, with `?` for unreadable characters, may be an issued one."""
        text = teardown.serial
        asked = (one for one in self._alike(_beginning(text)) if teardown.series in (None, one.id))
        read = ((series, series.stamp.worn(text)) for series in asked)
        found = (MayBe(series, worn) for series, worn in read if worn)
        return (one for one in found if one.lowest() is not None)

    def _may_begin(self, characters: str) -> tuple[Series, ...]:
        """The series whose numbers may begin with some characters: some of those that may with fewer."""
        among = self._alike(characters[:-1]) if characters else self._series
        return tuple(one for one in among if one.stamp.may_begin(characters))


def only(found: Sequence[MayBe]) -> tuple[Series, int] | None:
    """The one number that a text is; None when it may be several, or none."""
    lowest = found[0].lowest() if len(found) == 1 else None
    if lowest is None or found[0].lowest(lowest + 1) is not None:
        return None
    return found[0].series, lowest
