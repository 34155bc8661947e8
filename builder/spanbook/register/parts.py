"""Parts exist by being mentioned: gathering all that mentions each part number."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import (
    Assembly,
    Conversion,
    Machine,
    PartRecord,
    PartUse,
    Record,
    Series,
    Supersession,
    Teardown,
)
from spanbook.register.model import Part, owner
from spanbook.register.statements import Use


@dataclass(slots=True)
class _Mentions:
    """A part in the making; the dicts are sets that keep their order."""

    number: str
    names: dict[str, None] = field(default_factory=dict)
    record: PartRecord | None = None
    uses: list[Use] = field(default_factory=list)
    whole: dict[Assembly | Conversion, None] = field(default_factory=dict)
    old_in: dict[Supersession, None] = field(default_factory=dict)
    new_in: dict[Supersession, None] = field(default_factory=dict)
    needed_in: dict[Supersession, None] = field(default_factory=dict)
    conversions: dict[Conversion, None] = field(default_factory=dict)
    teardowns: dict[Teardown, None] = field(default_factory=dict)

    def part(self, key: PartKey) -> Part:
        return Part(
            key=key,
            number=self.number,
            names=tuple(self.names),
            record=self.record,
            uses=tuple(self.uses),
            whole=tuple(self.whole),
            old_in=tuple(self.old_in),
            new_in=tuple(self.new_in),
            needed_in=tuple(self.needed_in),
            conversions=tuple(self.conversions),
            teardowns=tuple(self.teardowns),
        )


def parts_of(
    records: tuple[Record, ...],
    uses: Mapping[Assembly, tuple[Use, ...]],
    series: Mapping[str, Series],
    machines: Mapping[str, Machine],
) -> dict[PartKey, Part]:
    """Every part that the records mention, in the order of the keys."""
    gathered: dict[PartKey, _Mentions] = {}
    # A part's own record says first how its number is written and what it is called.
    for record in sorted(records, key=lambda r: not isinstance(r, PartRecord)):
        maker = owner(record, series, machines) or ""
        _mention(record, _Gatherer(gathered, maker, uses))
    return {key: gathered[key].part(key) for key in sorted(gathered)}


@dataclass(frozen=True, slots=True)
class _Gatherer:
    gathered: dict[PartKey, _Mentions]
    maker: str
    uses: Mapping[Assembly, tuple[Use, ...]]

    def at(self, number: str, by: str | None, name: str | None) -> _Mentions:
        mentions = self.gathered.setdefault(PartKey.of(by or self.maker, number), _Mentions(number))
        if name:
            mentions.names[name] = None
        return mentions

    def each(self, uses: Iterable[PartUse]) -> Iterator[_Mentions]:
        return (self.at(use.number, use.by, use.name) for use in uses)


def _mention(record: Record, gather: _Gatherer) -> None:
    if isinstance(record, PartRecord):
        mentions = gather.at(record.number, record.by, record.title)
        mentions.record = mentions.record or record
    elif isinstance(record, Assembly):
        for said in gather.uses.get(record, ()):
            gather.at(said.use.number, said.use.by, said.use.name).uses.append(said)
    elif isinstance(record, Supersession):
        for mentions in gather.each(record.old):
            mentions.old_in[record] = None
        for mentions in gather.each(record.new):
            mentions.new_in[record] = None
        for mentions in gather.each(need.part for need in record.needs if need.part):
            mentions.needed_in[record] = None
    elif isinstance(record, Conversion):
        for mentions in gather.each((*record.adds, *record.removes)):
            mentions.conversions[record] = None
    elif isinstance(record, Teardown):
        for mentions in gather.each(use for find in record.found for use in find.parts):
            mentions.teardowns[record] = None
        for measured in (size for find in record.found for size in find.measurements if size.number):
            gather.at(measured.number or "", None, None).teardowns[record] = None
    if isinstance(record, Assembly | Conversion) and record.number:
        gather.at(record.number, record.by, record.title).whole[record] = None
