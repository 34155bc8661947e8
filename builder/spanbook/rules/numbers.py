"""Numbers that are, or may be, one: two records for one, spellings, misprints, meanings."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from itertools import combinations

from spanbook.answers.pairs import told_apart
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.matching import squeezed
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.nodes import Step
from spanbook.reading.phrases import any_of
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Assembly, PartRecord, Record
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.walk import Leaf, Walk
from spanbook.register.model import Part, Register
from spanbook.register.numbering import Numbers, Sense, When
from spanbook.rules.check import Check


def _part(id_: str, number: str, more: str = "") -> str:
    head = f"# file: content/parts/{id_}.yml\nkind: part\nid: {id_}\n"
    return f"{head}number: {number}\nname: {id_.capitalize()}\nevidence: [{{source: book}}]\n{more}"


def _listed(id_: str, first: int, last: int, parts: str) -> str:
    return (
        f"# file: content/assemblies/{id_}.yml\nkind: assembly\nid: {id_}\ntitle: {id_.capitalize()}\n"
        f"position: body/cover\nserials:\n- {{series: xa, first: {first}, last: {last}, "
        f"evidence: [{{source: book}}]}}\nparts: [{parts}]\n"
    )


_EARLY = "reused: [{serials: [{series: xa, first: 1, last: 20}]}]\n"
_LATE = "reused: [{serials: [{series: xa, first: 21, last: 99}]}]\n"
_SENSES = _part("pot", "P-1", _EARLY) + _part("bowl", "P-1", _LATE)

NUMBER_TWICE = Rule(
    "number-twice",
    Severity.ERROR,
    "Two records for one number would share one page, and which of them it means nobody could tell.",
    bad=_part("pot", "P-1") + _part("bowl", "P-1"),
    good=_SENSES,
)
NUMBERS_ALIKE = Rule(
    "numbers-alike",
    Severity.WARNING,
    "Numbers that differ only in spaces, dots, dashes or quotes are mostly one, spelt in two ways; where "
    "they are two, a record says so under unlike.",
    bad=_listed("lid", 1, 20, '{number: "P-1", name: Bolt}, {number: "P 1", name: Bolt}'),
    good=_listed("lid", 1, 20, '{number: "P-1", name: Bolt}, {number: "P 1", name: Nut}')
    + _part("bolt", "P-1", 'unlike: [{number: "P 1"}]\n'),
)
NUMBER_UNCLEAR = Rule(
    "number-unclear",
    Severity.WARNING,
    "A number that has meant several things says nothing where nobody can tell which of them is meant.",
    bad=_SENSES + _listed("lid", 1, 40, "{number: P-1, name: Pot}"),
    good=_SENSES + _listed("lid", 1, 40, "{number: P-1, name: Pot, means: pot}"),
)
MEANINGS_OVERLAP = Rule(
    "meanings-overlap",
    Severity.WARNING,
    "Where a number may mean two things on one machine in one year, neither can be chosen by them.",
    bad=_part("pot", "P-1", _EARLY) + _part("bowl", "P-1", _LATE.replace("21", "15")),
    good=_SENSES,
)
MISPRINT_WRITTEN = Rule(
    "misprint-written",
    Severity.WARNING,
    "A misprint leads to the number that was meant, and is mostly copied by mistake.",
    bad=_part("bolt", "P-12", "misprints: [{number: P-21}]\n")
    + _listed("lid", 1, 20, "{number: P-21, name: Bolt}"),
    good=_part("bolt", "P-12", "misprints: [{number: P-21}]\n")
    + _listed("lid", 1, 20, "{number: P-12, name: Bolt}"),
)
PART_LISTED_TWICE = Rule(
    "part-listed-twice",
    Severity.WARNING,
    "One part under two of its numbers is counted twice.",
    bad=_part("bolt", "P-1", "also: [{number: Q-9, by: army}]\n")
    + _listed("lid", 1, 20, "{number: P-1, name: Bolt}, {number: Q-9, by: army, name: Bolt}"),
    good=_part("bolt", "P-1", "also: [{number: Q-9, by: army}]\n")
    + _listed("lid", 1, 20, "{number: P-1, name: Bolt, quantity: 2}"),
)


def _parts(register: Register) -> Iterator[PartRecord]:
    return (record for record in register.records if isinstance(record, PartRecord))


def _twice(register: Register) -> Iterator[Finding]:
    numbering = register.numbering
    first: dict[PartKey, PartRecord] = {}
    for part in _parts(register):
        key = numbering.of_record(part).plain
        other = first.setdefault(key, part)
        if other is not part and not (part.reused and other.reused):
            read = _("a second record for {number}, which {path} is about").format(
                number=part.number, path=other.origin.path
            )
            yield Finding(part.origin.place("number"), read, _(_MEANING))
    for part in _parts(register):
        for steps, key, number in _led_by(register, part):
            place = part.origin.place(*steps)
            if key == numbering.of_record(part).plain:
                yield Finding(place, _("{}, which is its own number").format(number), _("leave it out"))
            elif steps[0] == "also" and key in first:
                read = _("{number}, which is the number of {path}").format(
                    number=number, path=first[key].origin.path
                )
                yield Finding(place, read, _("make one record of the two, or correct the number"))
            elif len(claims := numbering.claims[key]) > 1 and part is not next(iter(claims.values())):
                read = _("{number}, which {path} says is another part's").format(
                    number=number, path=next(iter(claims.values())).origin.path
                )
                yield Finding(place, read, _("keep it in one record only"))


_MEANING = marked(
    "make one record of the two; or, if the number has meant both, say in each under reused when"
)


def _led_by(register: Register, part: PartRecord) -> Iterator[tuple[tuple[Step, ...], PartKey, str]]:
    """Every number that a record says leads to its part: where, as a key, as typed."""
    numbering = register.numbering
    for i, (also, key) in enumerate(zip(part.also, numbering.also(part), strict=True)):
        yield ("also", i, "number"), key, also.number
    for i, (misprint, key) in enumerate(zip(part.misprints, numbering.misprints(part), strict=True)):
        yield ("misprints", i, "number"), key, misprint.number


def _alike(register: Register) -> Iterator[Finding]:
    groups: defaultdict[tuple[str, str], list[Part]] = defaultdict(list)
    for part in register.parts.values():
        groups[part.key.by, squeezed(part.number)].append(part)
    for parts in groups.values():
        for one, other in combinations(parts, 2):
            if one.key.plain != other.key.plain and not told_apart(register, one, other):
                read = _("{other} here and {one} elsewhere, which differ only in spacing or signs").format(
                    other=other.number, one=one.number
                )
                todo = _(
                    "write one of them everywhere, name one under also in the other's record, or under unlike"
                )
                yield Finding(_place(register, other), read, todo)


def _numbers(register: Register) -> Iterator[tuple[Record, Leaf, PartKey, PartKey]]:
    """Every number that a record names a part by: as it stands there, and the part that it leads to."""
    numbering = register.numbering
    for record, leaf in Walk(Role.NUMBER).over(register.records):
        if leaf.use is not UsedAs.ITSELF:
            by = leaf.beside(Role.OWNER)
            written = numbering.written(record, by, leaf.value)
            yield record, leaf, written, numbering.of(record, by, leaf.value, leaf.beside(Role.SENSE))


def _place(register: Register, part: Part) -> Place:
    """Where a part is first mentioned."""
    named = (
        record.origin.place(*leaf.steps) for record, leaf, __, key in _numbers(register) if key == part.key
    )
    return next(named, part.records[0].origin.place())


def _unclear(register: Register) -> Iterator[Finding]:
    if not register.numbering.senses:
        return
    for record, leaf, __, key in _numbers(register):
        if key in register.numbering.senses and leaf.use is not UsedAs.OWN:
            ids = any_of(sense.part.id for sense in register.numbering.senses[key])
            read = _("{}, which has meant several things, and nothing here tells which").format(leaf.value)
            says = Role.SENSE in leaf.shape.by_role
            todo = (
                _("add means with {}").format(ids)
                if says
                else _("say in the records {} under reused when it means each").format(ids)
            )
            yield Finding(record.origin.place(*leaf.steps), read, todo)


def _overlap(register: Register) -> Iterator[Finding]:
    for senses in register.numbering.senses.values():
        for one, other in combinations(senses, 2):
            if _may_both(one, other):
                read = _("{number} may mean this where {path} says that it means that").format(
                    number=other.part.number, path=one.part.origin.path
                )
                yield Finding(
                    other.part.origin.place("reused"), read, _("part their machines, numbers or years")
                )


def _may_both(one: Sense, other: Sense) -> bool:
    return any(_meet(mine, theirs) for mine in one.when for theirs in other.when)


def _meet(one: When, other: When) -> bool:
    since = max(one.since or 0, other.since or 0)
    until = min(one.until or 9999, other.until or 9999)
    return since <= until and _share(one.numbers, other.numbers)


def _share(one: Numbers | None, other: Numbers | None) -> bool:
    if one is None or other is None:
        return True
    return any(numbers & other[id_] for id_, numbers in one.items() if id_ in other)


def _misprint(register: Register) -> Iterator[Finding]:
    printed = {
        key: part
        for part in _parts(register)
        for key in register.numbering.misprints(part)
        if register.numbering.leads.get(key) == register.numbering.of_record(part)
    }
    for record, leaf, written, __ in _numbers(register) if printed else ():
        if part := printed.get(written):
            read = _("{value}, which is a misprint for {number} by {path}").format(
                value=leaf.value, number=part.number, path=part.origin.path
            )
            yield Finding(record.origin.place(*leaf.steps), read, _("write {}").format(part.number))


def _listed_twice(register: Register) -> Iterator[Finding]:
    for assembly in register.records:
        if not isinstance(assembly, Assembly):
            continue
        known: dict[PartKey, PartKey] = {}
        for i, use in enumerate(assembly.parts):
            written = register.numbering.written(assembly, use.by, use.number)
            first = known.setdefault(register.key_of(assembly, use), written)
            if first != written:
                read = _("{}, which is the same part as one above").format(use.number)
                todo = _("make one line of the two, with the quantities added")
                yield Finding(assembly.origin.place("parts", i), read, todo)


CHECKS = (
    Check(NUMBER_TWICE, _twice),
    Check(NUMBERS_ALIKE, _alike),
    Check(NUMBER_UNCLEAR, _unclear),
    Check(MEANINGS_OVERLAP, _overlap),
    Check(MISPRINT_WRITTEN, _misprint),
    Check(PART_LISTED_TWICE, _listed_twice),
)
