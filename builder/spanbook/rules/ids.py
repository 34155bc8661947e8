"""Names that must be one thing's alone: ids, former ids, anchors, and whose a part number is."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.problems import Finding, Place, Rule, Severity
from spanbook.reading.records import Record
from spanbook.reading.roles import Role, UsedAs
from spanbook.reading.shapes import named_as
from spanbook.reading.walk import walk
from spanbook.register.ids import ids_inside
from spanbook.register.model import Register
from spanbook.register.statements import Measurement, Subject, Use
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
        earlier = seen.setdefault((named_as(record.kind), record.id), record)
        if earlier is not record:
            read = _("the id {id}, which {path} has already").format(id=record.id, path=earlier.origin.path)
            yield Finding(record.origin.place("id"), read, _("give one of them another id"))
    inner: dict[tuple[str, str], Place] = {}
    for record in register.records:
        for steps, sort, id_ in ids_inside(record):
            place = record.origin.place(*steps)
            if (sort, id_) in inner:
                before = inner[sort, id_]
                read = _("the id {id}, which stands at {path}:{line} already").format(
                    id=id_, path=before.path, line=before.line
                )
                yield Finding(place, read, _("give one of them another id"))
            inner[sort, id_] = place


_ANCHOR = marked("give it an anchor")
_TWICE: dict[type[Subject], str] = {
    Use: marked(
        "make one line of the two, with the quantities added; if they are limited to other serial numbers, "
        "give one an anchor"
    ),
    Measurement: marked("say in other words what was measured"),
}


def _anchors(register: Register) -> Iterator[Finding]:
    for record, statements in register.statements_of.items():
        seen: set[str] = set()
        for statement in statements:
            if statement.anchor in seen:
                read = _("a second statement with the address #{}").format(statement.anchor)
                todo = _(_TWICE.get(type(statement.subject), _ANCHOR))
                yield Finding(record.origin.place(*statement.path), read, todo)
            seen.add(statement.anchor)


_SAY_WHOSE = marked("add by with the maker's id, for example by: {}")
_SAY_WHICH = marked(
    "add series with the series of the machine, which tells the maker, for example series: {}"
)


def _unclear(register: Register) -> Iterator[Finding]:
    maker, series = (min(known, default="its-id") for known in (register.makers, register.series))
    for record in register.records:
        if register.owner(record) is None:
            for leaf in walk(record, Role.NUMBER):
                if leaf.use is not UsedAs.ITSELF and not leaf.beside(Role.OWNER):
                    place = record.origin.place(*(leaf.at or leaf.steps))
                    read = _("a part number without by, and more than one maker could be meant")
                    says = Role.OWNER in leaf.shape.by_role
                    todo = _(_SAY_WHOSE).format(maker) if says else _(_SAY_WHICH).format(series)
                    yield Finding(place, read, todo)


CHECKS = (
    Check(ID_TWICE, _twice),
    Check(ANCHOR_TWICE, _anchors),
    Check(MAKER_UNCLEAR, _unclear),
)
