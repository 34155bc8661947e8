"""Names that must be one thing's alone: ids, former ids, anchors, and whose a part number is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import (
    Assembly,
    Cautions,
    Conversion,
    Glossary,
    Machine,
    PartRecord,
    PositionEntry,
    Positions,
    Record,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register
from spanbook.rules.check import Check

_HEAD = "kind: source\nid: letter-a\ntitle: A letter\nclass: correspondence\n"
_GOOD = "# file: content/sources/letter-a.yml\n" + _HEAD
_FILE = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\n"
_LID = _FILE + "position: body/cover\nserials:\n"
_EARLY = "- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
_LATE = "- {series: xa, first: 30, last: 40, anchor: span-xa-late, evidence: [{source: book}]}\n"
_OTHER = (
    "# file: content/machines/y-one.yml\nkind: machine\nid: y-one\ntitle: Y\nmaker: Other Works\nseries:\n"
    '- {id: ya, stamped: "Y {number}", plate: machine, first: 1, last: 9, evidence: [{source: book}]}\n'
)
_ACT = (
    "# file: content/supersessions/p-to-q.yml\nkind: supersession\nid: p-to-q\nevidence: [{source: book}]\n"
)

ID_TWICE = Rule(
    "id-twice",
    Severity.ERROR,
    "Two things with one id would share one address, and one of them could not be found.",
    bad=_GOOD + "# file: content/sources/letters/letter-a.yml\n" + _HEAD,
    good=_GOOD + "# file: content/sources/letters/letter-b.yml\n" + _HEAD.replace("letter-a", "letter-b"),
)
FORMER_ID_TAKEN = Rule(
    "former-id-taken",
    Severity.ERROR,
    "A former id still leads to its record; another record there would break old links.",
    bad=_GOOD + "formerly: [book]\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
ANCHOR_TWICE = Rule(
    "anchor-twice",
    Severity.ERROR,
    "Every statement has an address of its own on its page, and it is never reused.",
    bad=_LID + _EARLY + _LATE.replace("anchor: span-xa-late, ", ""),
    good=_LID + _EARLY + _LATE,
)
MAKER_UNCLEAR = Rule(
    "maker-unclear",
    Severity.ERROR,
    "Two makers may use the same part number: where it could be either's, the record has to say whose.",
    bad=_OTHER + _ACT + 'old: [{number: "P-1"}]\nnew: [{number: "Q-1"}]\n',
    good=_OTHER
    + _ACT
    + 'old: [{number: "P-1", by: example-works}]\nnew: [{number: "Q-1", by: example-works}]\n',
)


def _twice(register: Register) -> Iterator[Finding]:
    seen: dict[tuple[str, str], Record] = {}
    for record in register.records:
        earlier = seen.setdefault((record.kind, record.id), record)
        if earlier is not record:
            read = f"the {record.kind} {record.id}, which {earlier.origin.path} is already"
            yield Finding(record.origin.place("id"), read, "give one of them another id")
    # The ids of series are one namespace over all machines; others hold within their own file.
    machines: list[Record] = [r for r in register.records if isinstance(r, Machine)]
    for records in (machines, *_single(register)):
        inner: dict[str, Place] = {}
        for record in records:
            for steps, id_ in _inner_ids(record):
                place = record.origin.place(*steps)
                if id_ in inner:
                    read = f"the id {id_}, which stands at {inner[id_].path}:{inner[id_].line} already"
                    yield Finding(place, read, "give one of them another id")
                inner[id_] = place


def _single(register: Register) -> Iterator[list[Record]]:
    return ([r] for r in register.records if isinstance(r, Cautions | Glossary | Positions))


def _inner_ids(record: Record) -> Iterator[tuple[tuple[Step, ...], str]]:
    """The ids that a record gives to things inside it, positions by their full names."""
    if isinstance(record, Machine):
        yield from ((("series", i, "id"), s.id) for i, s in enumerate(record.series))
    elif isinstance(record, Cautions):
        yield from ((("cautions", i, "id"), c.id) for i, c in enumerate(record.cautions))
    elif isinstance(record, Glossary):
        yield from ((("terms", i, "id"), t.id) for i, t in enumerate(record.terms))
    elif isinstance(record, Positions):
        yield from _position_ids(record.positions, (), "")


def _position_ids(
    entries: Iterable[PositionEntry], at: tuple[Step, ...], above: str
) -> Iterator[tuple[tuple[Step, ...], str]]:
    for i, entry in enumerate(entries):
        steps = (*at, "positions", i)
        yield (*steps, "id"), f"{above}{entry.id}"
        yield from _position_ids(entry.positions, steps, f"{above}{entry.id}/")


def _former(register: Register) -> Iterator[Finding]:
    taken = {(record.kind, record.id): record for record in register.records}
    for record in register.records:
        for i, former in enumerate(record.formerly):
            holder = taken.setdefault((record.kind, former), record)
            if holder is not record or former == record.id:
                place = record.origin.place("formerly", i)
                read = f"the former id {former}, which {holder.origin.path} has"
                yield Finding(place, read, "keep it in one record only")


_TWICE = {
    "parts": "make one line of the two, with the quantities added",
    "sizes": "say in other words what was measured",
}


def _anchors(register: Register) -> Iterator[Finding]:
    for record, statements in register.statements_of.items():
        seen: set[str] = set()
        for statement in statements:
            if statement.anchor and statement.anchor in seen:
                read = f"a second statement with the address #{statement.anchor}"
                todo = _TWICE.get(str(statement.path[0]), "give it an anchor")
                yield Finding(record.origin.place(*statement.path), read, todo)
            seen.add(statement.anchor)


def _unclear(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if register.owner(record) is None:
            for steps in _ownerless(record):
                read = "a part number without by, and more than one maker could be meant"
                yield Finding(record.origin.place(*steps), read, "add by: with the maker's id")


def _ownerless(record: Record) -> Iterator[tuple[Step, ...]]:
    """Where a record names a part number and does not say whose it is."""
    if isinstance(record, Assembly | Conversion | PartRecord) and record.number and not record.by:
        yield ("number",)
    if isinstance(record, Assembly):
        yield from (("parts", i) for i, use in enumerate(record.parts) if not use.by)
    elif isinstance(record, Conversion):
        for key, uses in (("adds", record.adds), ("removes", record.removes)):
            yield from ((key, i) for i, use in enumerate(uses) if not use.by)
    elif isinstance(record, Supersession):
        for key, uses in (("old", record.old), ("new", record.new)):
            yield from ((key, i) for i, use in enumerate(uses) if not use.by)
        yield from (("needs", i) for i, need in enumerate(record.needs) if need.part and not need.part.by)
    elif isinstance(record, Teardown):
        for i, find in enumerate(record.found):
            yield from (("found", i, "parts", j) for j, use in enumerate(find.parts) if not use.by)


CHECKS = (
    Check(ID_TWICE, _twice),
    Check(FORMER_ID_TAKEN, _former),
    Check(ANCHOR_TWICE, _anchors),
    Check(MAKER_UNCLEAR, _unclear),
)
