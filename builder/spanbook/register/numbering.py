"""Which part a number means, wherever it is written: the one place where that is decided.

- Another number of a part, or a misprint for it, is that part.
- A number that has meant several things means the one that its line names (`means`); else the one that alone
  may be meant on the machines, and in the year, that its record speaks of. Where several may be meant it is
  none of them: the number stands for itself and is merged with nothing.
- What two parts claim leads to neither; a rule tells of it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from copy import copy
from dataclasses import dataclass
from math import inf
from typing import Protocol

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.dated import between
from spanbook.reading.records import (
    Assembly,
    Conversion,
    Machine,
    PartRecord,
    Record,
    Reuse,
    Series,
    SeriesSpan,
    StripDown,
    Supersession,
    Teardown,
)
from spanbook.register.reach import reach_of

Numbers = Mapping[str, SpanSet]  # of each series, by its id


class Named(Protocol):
    """A line that names a part."""

    @property
    def number(self) -> str: ...
    @property
    def by(self) -> str | None: ...
    @property
    def means(self) -> str | None: ...


@dataclass(frozen=True, slots=True)
class Spoken:
    """What a number is spoken of for: machines, and years from one to another; None where nothing is said."""

    numbers: Numbers | None = None
    years: tuple[float, float] | None = None


ANYWHERE = Spoken()


@dataclass(frozen=True, slots=True)
class When:
    """Machines, and years, for which a number means one of the things that it has meant."""

    numbers: Numbers | None
    since: int | None
    until: int | None

    def may_be(self, of: Spoken) -> bool:
        """Whether nothing that is spoken of rules it out."""
        first, last = of.years or (-inf, inf)
        if last < (self.since or -inf) or first > (self.until or inf):
            return False
        if of.numbers is None or self.numbers is None:
            return True
        return any(numbers & self.numbers[id_] for id_, numbers in of.numbers.items() if id_ in self.numbers)


@dataclass(frozen=True, slots=True)
class Sense:
    """One of the things that a number has meant, and when it does: any one of `when`."""

    part: PartRecord
    when: tuple[When, ...]

    def may_be_meant(self, of: Spoken) -> bool:
        """Whether nothing that is spoken of rules it out."""
        return any(when.may_be(of) for when in self.when)


class Numbering:
    """Which parts the numbers of some records mean."""

    def __init__(
        self,
        records: Iterable[Record],
        owners: Mapping[Record, str | None],
        machines: Mapping[str, Machine],
        series: Mapping[str, Series],
    ) -> None:
        self._owners = owners
        self._series = series
        self._machines = machines
        kept = tuple(records)
        self._assemblies = _assemblies(kept)
        parts = [one for one in kept if isinstance(one, PartRecord)]
        self.senses = self._senses(parts)
        self.claims = self._claims(parts)
        own = {self.of_record(one).plain for one in parts}
        agreed = ((key, claimed) for key, claimed in self.claims.items() if len(claimed) == 1)
        self.leads = {key: next(iter(claimed)) for key, claimed in agreed if key not in own}
        self._others: dict[PartKey, list[PartKey]] = {}
        for other, key in self.leads.items():
            self._others.setdefault(key, []).append(other)
        self._spoken: Memo[Record, Spoken] = Memo(self._spoken_of)

    def over(self, owners: Mapping[Record, str | None], records: Sequence[Record]) -> Numbering:
        """The same where the records, but for those of parts, are these now."""
        other = copy(self)
        other._owners = owners
        other._assemblies = _assemblies(records)
        other._spoken = Memo(other._spoken_of)
        return other

    def of_record(self, part: PartRecord) -> PartKey:
        """The part that a part's own record is about."""
        key = PartKey.of(part.by or self.owner(part), part.number)
        return PartKey(key.by, key.number, part.id) if part.reused else key

    def owner(self, record: Record) -> str:
        """Whose numbers a record means when it does not say; empty where nobody can tell."""
        return self._owners[record] or ""

    def written(self, record: Record, by: str | None, number: str) -> PartKey:
        """A number as it stands in a record, before it leads anywhere."""
        return PartKey.of(by or self.owner(record), number)

    def of_line(self, record: Record, said: Named, only: Iterable[SeriesSpan] = ()) -> PartKey:
        """The part that a line means, which may be limited to some machines."""
        return self.of(record, said.by, said.number, said.means, only)

    def of(
        self,
        record: Record,
        by: str | None,
        number: str,
        means: str | None = None,
        only: Iterable[SeriesSpan] = (),
    ) -> PartKey:
        """The part that a number means in a record, or in a line of it that is limited to some machines."""
        key = self.written(record, by, number)
        if key not in self.senses:
            return self.leads.get(key, key)
        own = record.id if isinstance(record, PartRecord) else None
        meant = [sense.part for sense in self.senses[key] if sense.part.id == (means or own)]
        of = Spoken(self._of_spans(only)) if only else self._spoken(record)
        meant = meant or [sense.part for sense in self.may_mean(key, of)]
        return self.of_record(meant[0]) if len(meant) == 1 else key

    def others(self, key: PartKey) -> Sequence[PartKey]:
        """The numbers that lead to a part, misprints too."""
        return self._others.get(key, ())

    def may_mean(self, key: PartKey, of: Spoken) -> tuple[Sense, ...]:
        """What a number that has meant several things may mean there."""
        return tuple(sense for sense in self.senses.get(key, ()) if sense.may_be_meant(of))

    def asked(self, key: PartKey, of: Spoken = ANYWHERE, means: str | None = None) -> tuple[PartKey, ...]:
        """What a number may mean to whoever asks, of a machine or a year, or says which part is meant."""
        if key not in self.senses:
            return (self.leads.get(key, key),)
        if means:
            return tuple(self.of_record(sense.part) for sense in self.senses[key] if sense.part.id == means)
        return tuple(self.of_record(sense.part) for sense in self.may_mean(key, of))

    def _senses(self, parts: list[PartRecord]) -> dict[PartKey, tuple[Sense, ...]]:
        found: dict[PartKey, tuple[Sense, ...]] = {}
        for part in parts:
            if part.reused:
                key = self.of_record(part).plain
                when = tuple(When(self._meant(one), one.since, one.until) for one in part.reused)
                found[key] = (*found.get(key, ()), Sense(part, when))
        return found

    def _claims(self, parts: list[PartRecord]) -> dict[PartKey, dict[PartKey, PartRecord]]:
        """The parts of which a number is said to be another one, or a misprint, with who says so first."""
        found: dict[PartKey, dict[PartKey, PartRecord]] = {}
        for part in parts:
            own = self.of_record(part)
            for key in (*self.also(part), *self.misprints(part)):
                if key != own.plain:
                    found.setdefault(key, {}).setdefault(own, part)
        return found

    def also(self, part: PartRecord) -> Iterator[PartKey]:
        """The other numbers of a part, in the order of its record."""
        return (PartKey.of(one.by or self.owner(part), one.number) for one in part.also)

    def misprints(self, part: PartRecord) -> Iterator[PartKey]:
        """What was printed for a part by mistake, in the order of its record."""
        own = self.of_record(part).by
        return (PartKey.of(one.by or own, one.number) for one in part.misprints)

    def _meant(self, reuse: Reuse) -> Numbers | None:
        if not reuse.machines and not reuse.serials:
            return None
        found = self._of_spans(reuse.serials)
        for id_ in reuse.machines:
            for series in self._machines[id_].series if id_ in self._machines else ():
                found[series.id] = found.get(series.id, SpanSet()) | series.issued
        return found

    def _of_spans(self, spans: Iterable[SeriesSpan]) -> dict[str, SpanSet]:
        """The numbers that spans may cover."""
        found: dict[str, SpanSet] = {}
        for span in spans:
            if series := self._series.get(span.series):
                found[span.series] = found.get(span.series, SpanSet()) | reach_of(span, series).possibly
        return found

    def _spoken_of(self, record: Record) -> Spoken:
        match record:
            case Assembly():
                return Spoken(self._of_spans(record.serials))
            case Supersession():
                numbers = self._of_spans(record.serials) if record.serials else None
                return Spoken(numbers, between(record.year))
            case Conversion():
                offered = (between(record.year)[0], between(record.until)[1])
                return Spoken(self._of_spans(record.serials) if record.serials else None, offered)
            case Teardown():
                return Spoken(self._read(record.serial, record.series))
            case StripDown():
                if record.serial:
                    return Spoken(self._read(record.serial, None))
                of = self._assemblies.get(record.assembly)
                return self._spoken(of) if of else ANYWHERE
            case _:
                return ANYWHERE

    def _read(self, serial: str, series: str | None) -> Numbers | None:
        """The numbers that a serial number reads as, worn or not; None where it reads as none."""
        found: dict[str, SpanSet] = {}
        for one in self._series.values():
            if series in (None, one.id):
                read = SpanSet.of(Span(number, number) for number in one.stamp.may_be(serial)) & one.issued
                found |= {one.id: read} if read else {}
        return found or None


def _assemblies(records: Sequence[Record]) -> Mapping[str, Assembly]:
    return {one.id: one for one in reversed(records) if isinstance(one, Assembly)}
