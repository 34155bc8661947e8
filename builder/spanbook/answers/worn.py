"""Serial numbers of which some digits cannot be read: the machines that they may be, without listing them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from spanbook.ground.intervals import SpanSet
from spanbook.ground.memo import Memo
from spanbook.ground.serials import Worn, fold
from spanbook.reading.records import Series, Unit
from spanbook.register.model import Register


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


def beginning(text: str) -> str:
    """As much of a serial number as tells most stamps apart."""
    return fold(text)[:3]


class Stamps:
    """The stamps of a register, by the characters that begin them: of many series few need to be asked."""

    def __init__(self, register: Register) -> None:
        self._series = tuple(register.series.values())
        self._alike: Memo[str, tuple[Series, ...]] = Memo(self._beginning)

    def possible(self, text: str) -> tuple[MayBe, ...]:
        """The series in which a text, with `?` for unreadable characters, may be an issued number."""
        read = ((series, series.stamp.worn(text)) for series in self._alike(beginning(text)))
        found = (MayBe(series, worn) for series, worn in read if worn)
        return tuple(one for one in found if one.lowest() is not None)

    def _beginning(self, characters: str) -> tuple[Series, ...]:
        """The series whose numbers may begin with some characters."""
        return tuple(one for one in self._series if one.stamp.may_begin(characters))


def only(found: Sequence[MayBe]) -> tuple[Series, int] | None:
    """The one number that a text is; None when it may be several, or none."""
    lowest = found[0].lowest() if len(found) == 1 else None
    if lowest is None or found[0].lowest(lowest + 1) is not None:
        return None
    return found[0].series, lowest
