"""Parts exist by being mentioned: whose each part number is, and all that mentions it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from spanbook.ground.part_numbers import PartKey, maker_id, slug_as_typed
from spanbook.reading.records import (
    Assembly,
    ListedPart,
    Machine,
    PartRecord,
    Record,
    Series,
)
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.walk import Leaf, Walk
from spanbook.register.model import Part
from spanbook.register.numbering import Numbering
from spanbook.register.statements import Statement, Use

_ORDER = {use: place for place, use in enumerate(UsedAs)}
_NUMBERS = Walk(Role.NUMBER)
_SERIES, _MACHINES = Walk(Role.REFERENCE, to="series"), Walk(Role.REFERENCE, to="machine")


def owner(record: Record, series: Mapping[str, Series], machines: Mapping[str, Machine]) -> str | None:
    """Whose part numbers a record means when it does not say: the id of the one maker it can be.

    The maker of the machines that the record names, or their series; else the only maker there is; else None.
    A machine's own record means its own maker.
    """
    if isinstance(record, Machine):
        return maker_id(record.maker)
    referred = _SERIES(record)
    named = {series[leaf.value].machine for leaf in referred if leaf.value in series}
    named |= {leaf.value for leaf in _MACHINES(record) if leaf.value in machines}
    of = {maker_id(machines[m].maker) for m in named or machines}
    return of.pop() if len(of) == 1 else None


@dataclass(slots=True)
class _Mentions:
    """A part in the making; the dicts are sets that keep their order."""

    number: str
    names: dict[str, None] = field(default_factory=dict)
    record: PartRecord | None = None
    uses: list[Use] = field(default_factory=list)
    named_as: dict[UsedAs, dict[Record, None]] = field(default_factory=dict)
    spelt: dict[tuple[str, str, str], None] = field(default_factory=dict)

    def add(self, record: Record, leaf: Leaf, line: Statement | None) -> None:
        """A retired assembly's line is no use."""
        said = line.subject if line else None
        listed = said if isinstance(said, Use) and not said.assembly.retired else None
        if name := leaf.beside(Role.NAME) or (listed and listed.name):
            self.names[name] = None
        if listed:
            self.uses.append(listed)
        elif leaf.use is UsedAs.OWN and isinstance(record, PartRecord):
            self.record = self.record or record
        elif isinstance(record, Assembly) and record.retired:
            self.named_as.setdefault(UsedAs.MENTIONED, {})[record] = None
        else:
            use = UsedAs.SEEN if leaf.use is UsedAs.MEASURED else leaf.use
            self.named_as.setdefault(use, {})[record] = None

    def part(self, key: PartKey, also: Iterable[PartKey]) -> Part:
        return Part(
            key=key,
            number=self.number,
            also=tuple(also),
            names=tuple(self.names),
            record=self.record,
            uses=tuple(self.uses),
            named_as={use: tuple(records) for use, records in self.named_as.items()},
            spelt=tuple(self.spelt),
        )


def _says_first(record: Record) -> int:
    """A part's own record says how its number is written and what it is called, and what is retired last."""
    if isinstance(record, PartRecord):
        return 0
    return 2 if isinstance(record, Assembly) and record.retired else 1


def parts_of(
    records: Iterable[Record], statements: Iterable[Statement], numbering: Numbering
) -> dict[PartKey, Part]:
    """Every part that the records mention, in the order of the keys, by what these say."""
    gathered: dict[PartKey, _Mentions] = {}
    # By the line itself: two lines that say the same are two uses.
    of_line = {id(one.subject.said): one for one in statements if isinstance(one.subject, Use)}
    for record in sorted(records, key=_says_first):
        for leaf in _named(record):
            line = of_line.get(id(leaf.holder))
            key = line.number if line and line.number else _meant(record, leaf, numbering)
            found = gathered.get(key)
            if found is None:
                found = gathered[key] = _Mentions(leaf.value)
            found.add(record, leaf, line)
            if not leaf.value.isascii():
                written = numbering.written(record, leaf.beside(Role.OWNER), leaf.value)
                former = f"{written.by}/{slug_as_typed(leaf.value)}"
                if former != written.path:
                    found.spelt[leaf.value, written.by, former] = None
    return {key: gathered[key].part(key, numbering.others(key)) for key in sorted(gathered)}


def mentions(record: Record, numbering: Numbering) -> Iterator[tuple[PartKey, Leaf]]:
    """The parts that a record names, each with the place where it does."""
    return ((_meant(record, leaf, numbering), leaf) for leaf in _named(record))


def _named(record: Record) -> list[Leaf]:
    found = [leaf for leaf in _NUMBERS(record) if leaf.use is not UsedAs.ITSELF]
    found.sort(key=lambda leaf: _ORDER[leaf.use])
    return found


def _meant(record: Record, leaf: Leaf, numbering: Numbering) -> PartKey:
    only = leaf.holder.serials if isinstance(leaf.holder, ListedPart) else ()
    return numbering.of(record, leaf.beside(Role.OWNER), leaf.value, leaf.beside(Role.SENSE), only)
