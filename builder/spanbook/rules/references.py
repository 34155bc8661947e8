"""Every reference leads somewhere, and to the right sort of thing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from difflib import get_close_matches

from spanbook.ground.language import gettext as _
from spanbook.ground.memo import Memo
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Absence, Assembly, PositionEntry, Positions
from spanbook.reading.roles import Role
from spanbook.reading.shapes import kinds_named
from spanbook.reading.walk import Walk
from spanbook.register.model import Register
from spanbook.rules.check import Check
from spanbook.rules.sorts import sort_words

Steps = tuple[Step, ...]
_PLACES, _ASSEMBLIES = Walk(Role.PLACE), Walk(Role.REFERENCE, to="assembly")
_FILE = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\n"
_SPAN = "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
_GOOD = _FILE + "position: body/cover\n" + _SPAN
_SEEN = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
)
_FOUND = "serial: XA 7\ncondition: untouched\nfound:\n"
_TREE = (
    "# file: content/positions.yml\nkind: positions\npositions:\n- id: body\n  title: Body\n  positions:\n"
    "  - {id: cover, title: Cover, positions: [%s]}\n  - {id: drain, title: Drain}\n"
    "- {id: pump, title: Pump}\n"
)

REFERENCE_UNKNOWN = Rule(
    "reference-unknown",
    Severity.ERROR,
    "A name that leads nowhere is a statement that nobody can follow; most are misspelt.",
    bad=_GOOD.replace("source: book", "source: boook"),
    good=_GOOD,
)
POSITION_NOT_A_LEAF = Rule(
    "position-not-a-leaf",
    Severity.ERROR,
    "An assembly occupies one place, not a group of places.",
    bad=_GOOD.replace("body/cover", "body"),
    good=_GOOD,
)
POSITION_DIFFERS = Rule(
    "position-differs",
    Severity.ERROR,
    "An assembly is looked for where its record puts it; elsewhere one of the two records is wrong.",
    bad=_GOOD + _SEEN + _FOUND + "- {position: body/drain, assembly: lid}\n",
    good=_GOOD + _SEEN + _FOUND + "- {position: body/cover, assembly: lid}\n",
)
POSITION_WITHIN = Rule(
    "position-within",
    Severity.ERROR,
    "A place within an assembly is inside the position of that assembly, and all places there are within "
    "assemblies; the places of a group, which holds none, are within none.",
    bad=_TREE % "{id: valve, title: Valve, within: [lid]}, {id: plug, title: Plug}" + _GOOD,
    good=_TREE % "{id: valve, title: Valve, within: [lid]}, {id: plug, title: Plug, within: [lid]}" + _GOOD,
)


def _unknown(register: Register) -> Iterator[Finding]:
    known = Memo(register.named)
    for record, leaf in Walk(Role.REFERENCE, Role.PLACE, Role.SENSE).over(register.records):
        if leaf.value not in known(leaf.to) and not register.unread.may_hold(leaf.to, leaf.value):
            yield Finding(record.origin.place(*leaf.steps), *_what_instead(register, leaf.to, leaf.value))


def _what_instead(register: Register, sort: str, id_: str) -> tuple[str, str]:
    """What is wrong with an id that nothing has, and what to do."""
    before = (register.former.ids.get((kind, id_)) for kind in kinds_named(sort) or (sort,))
    if now := next(filter(None, before), None):
        read = _("{id} is what the {sort} {now} was called formerly")
        return read.format(id=id_, sort=sort_words(sort), now=now), _("write {}").format(now)
    close = get_close_matches(id_, register.named(sort), n=1)
    todo = (
        _("did you mean {}?").format(close[0])
        if close
        else _("correct it, or add a record for that {}").format(sort_words(sort))
    )
    return _("there is no {sort} {id}").format(sort=sort_words(sort), id=id_), todo


def _not_a_leaf(register: Register) -> Iterator[Finding]:
    for record, leaf in _PLACES.over(register.records):
        position = register.positions.get(leaf.value)
        if position and not position.holds:
            inside = ", ".join(position.below)
            read = _("{} is a group of positions").format(leaf.value)
            todo = _("name one of {}").format(inside)
            if isinstance(record, Assembly) and len(leaf.steps) == 1:
                todo = _(
                    "name one of {inside}; or, where {id} has these places inside it, write within: [{id}] "
                    "in each of them in positions.yml"
                ).format(inside=inside, id=record.id)
            yield Finding(record.origin.place(*leaf.steps), read, todo)


def _differs(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if not (named := _ASSEMBLIES(record)):
            continue
        places = {leaf.at: leaf for leaf in _PLACES(record)}
        for leaf in named:
            place, assembly = places.get(leaf.at), register.assemblies.get(leaf.value)
            if not place or place.value not in register.positions:
                continue  # a place that there is not is told of as that
            if assembly and assembly.position != place.value:
                read = _("{id} at {place}, and its record puts it at {position}").format(
                    id=leaf.value, place=place.value, position=assembly.position
                )
                yield Finding(record.origin.place(*place.steps), read, _("correct the one that is wrong"))


def _within(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if isinstance(record, Positions):
            yield from _within_each(register, record, record.positions, None, ())


def _within_each(
    register: Register, record: Positions, entries: Sequence[PositionEntry], above: str | None, at: Steps
) -> Iterator[Finding]:
    housed = any(entry.within for entry in entries)
    for i, entry in enumerate(entries):
        here = (*at, "positions", i)
        for j, id_ in enumerate(entry.within):
            assembly = register.assemblies.get(id_)
            if isinstance(assembly, Absence):
                read, todo = _("within {}, where nothing is fitted").format(id_), _("leave it out")
                yield Finding(record.origin.place(*here, "within", j), read, todo)
            elif assembly and assembly.position != above:
                told = (
                    _("within {id}, which is at {position} and not at {above}")
                    if above
                    else _("within {id}, which is at {position} and not at what is around it")
                )
                read = told.format(id=id_, position=assembly.position, above=above)
                yield Finding(
                    record.origin.place(*here, "within", j), read, _("name assemblies of that position")
                )
        if housed and not entry.within:
            told = (
                _("{id} is within no assembly, and another position inside {above} is")
                if above
                else _("{id} is within no assembly, and another position inside the tree is")
            )
            read = told.format(id=entry.id, above=above)
            yield Finding(
                record.origin.place(*here), read, _("say within which assemblies, or of none of them")
            )
        path = f"{above}/{entry.id}" if above else entry.id
        yield from _within_each(register, record, entry.positions, path, here)


CHECKS = (
    Check(REFERENCE_UNKNOWN, _unknown),
    Check(POSITION_NOT_A_LEAF, _not_a_leaf),
    Check(POSITION_DIFFERS, _differs),
    Check(POSITION_WITHIN, _within),
)
