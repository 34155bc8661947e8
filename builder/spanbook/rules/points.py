"""The points of figures: each names a part of what is shown, or says what is there."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.nodes import Step
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Assembly, Figure, Find, Machine, PartRecord, Point, Record, Teardown
from spanbook.register.model import Register
from spanbook.rules.check import Check

_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
    "parts:\n- {number: P-1, name: Bolt}\n"
    "figures:\n- {file: lid.png, shows: The lid, licence: CC0-1.0, points: [{x: 500, y: 90, number: P-1}]}\n"
    "# picture: content/photographs/lid.png\n"
)
_SIGNS = (
    "# file: content/signs.yml\nkind: signs\nsigns:\n"
    "- {id: lid-held, asks: How the lid is held, answers: [four nuts, one bolt]}\n"
)

POINT_EMPTY = Rule(
    "point-empty",
    Severity.ERROR,
    "A pin in a figure leads to a part, a sign or a few words; one with none of them tells nothing.",
    bad=_LID.replace(", number: P-1}]", "}]"),
    good=_LID,
)
POINT_NOT_LISTED = Rule(
    "point-not-listed",
    Severity.WARNING,
    "What is pointed out in a figure of an assembly is in its parts list: one of the two is wrong.",
    bad=_LID.replace("number: P-1}]", "number: P-3}]"),
    good=_LID,
)
POINT_SIGN = Rule(
    "point-sign-unsaid",
    Severity.WARNING,
    "Where a sign is pointed out, the record says what is seen of it: the spot alone tells nothing.",
    bad=_SIGNS + _LID.replace("number: P-1}]", "sign: lid-held}]"),
    good=_SIGNS
    + _LID.replace("number: P-1}]", "sign: lid-held}]").replace(
        "figures:", "signs: [{sign: lid-held, seen: four nuts}]\nfigures:"
    ),
)


def _empty(register: Register) -> Iterator[Finding]:
    for record in register.records:
        for steps, point in _points(record):
            if point.number is None and point.sign is None and point.shows is None:
                place = record.origin.place(*steps)
                yield Finding(place, _("a point without a number, sign or words"), _("say what is there"))


def _not_listed(register: Register) -> Iterator[Finding]:
    for record in register.records:
        for steps, point in _points(record):
            listed = _listed(register, record, steps)
            if listed and point.part and register.key_of(record, point.part) not in listed:
                read = _("{}, which the parts list does not have").format(point.number)
                yield Finding(record.origin.place(*steps, "number"), read, _("mend one of the two"))


def _sign_unsaid(register: Register) -> Iterator[Finding]:
    for record in register.records:
        if isinstance(record, Assembly | PartRecord):
            said = {shown.sign for shown in record.signs}
            for steps, point in _points(record):
                if point.sign and point.sign not in said:
                    place = record.origin.place(*steps, "sign")
                    read = _("{}, of which the record does not say what is seen").format(point.sign)
                    yield Finding(place, read, _("say it under signs, or take it away here"))


def _points(record: Record) -> Iterator[tuple[tuple[Step, ...], Point]]:
    """Every point of a record, at the end of its steps."""
    for steps, figures in _figures(record):
        for i, figure in enumerate(figures):
            yield from (((*steps, i, "points", j), point) for j, point in enumerate(figure.points))


def _figures(record: Record) -> Iterable[tuple[tuple[Step, ...], tuple[Figure, ...]]]:
    match record:
        case Teardown():
            return ((("found", i, "photographs"), find.photographs) for i, find in enumerate(record.found))
        case Assembly() | PartRecord() | Machine():
            return ((("figures",), record.figures),)
    return ()


def _listed(register: Register, record: Record, steps: tuple[Step, ...]) -> set[PartKey]:
    """The numbers that may be pointed out there; empty where none are known, or any may be."""
    match record:
        case Assembly():
            return {register.key_of(record, use.said) for use in register.uses_of(record)}
        case Teardown():
            return _of_find(register, record, record.found[int(steps[1])])
    return set()


def _of_find(register: Register, teardown: Teardown, find: Find) -> set[PartKey]:
    """What the assembly that was found is made of, and what was read on the parts there."""
    assemblies = [register.assemblies[id_] for id_ in find.named if id_ in register.assemblies]
    listed = {
        register.key_of(assembly, use.said) for assembly in assemblies for use in register.uses_of(assembly)
    }
    return listed | {register.key_of(teardown, use) for use in find.parts} if listed else set()


CHECKS = (Check(POINT_EMPTY, _empty), Check(POINT_NOT_LISTED, _not_listed), Check(POINT_SIGN, _sign_unsaid))
