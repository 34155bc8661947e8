"""What statements rest on."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Conversion, Evidence, Series, Supersession
from spanbook.reading.roles import Role
from spanbook.reading.walk import Walk
from spanbook.register.model import Register
from spanbook.register.statements import Fitting, Limit, StraySpan, Subject
from spanbook.rules.check import Check

_FILE = "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
_GOOD = _FILE + "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
_LETTER = (
    "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\ntitle: A\nclass: correspondence\n"
)

STATEMENT_WITHOUT_EVIDENCE = Rule(
    "statement-without-evidence",
    Severity.ADVICE,
    "A reader wants to know on whose word; a statement without evidence can be neither checked nor weighed.",
    bad=_GOOD.replace(", evidence: [{source: book}]", ""),
    good=_GOOD,
)
SOURCE_UNUSED = Rule(
    "source-unused",
    Severity.WARNING,
    "A source that no statement names tells a reader nothing; most were meant to be named somewhere.",
    bad=_GOOD + _LETTER,
    good=_GOOD.replace("{source: book}", "{source: book}, {source: letter-a}") + _LETTER,
)
AGAINST_WITHOUT_NOTE = Rule(
    "against-without-note",
    Severity.ADVICE,
    "Who speaks against something says something else: without it nobody can weigh the two.",
    bad=_GOOD.replace("{source: book}", "{source: book}, {source: letter-a, against: true}") + _LETTER,
    good=_GOOD.replace(
        "{source: book}", "{source: book}, {source: letter-a, against: true, note: Ends at 19}"
    )
    + _LETTER,
)

# A parts list rests on the spans' evidence unless a line says otherwise; a part, on where it is used.
_NEEDING: dict[type[Subject], str] = {
    Fitting: marked("a span without evidence"),
    StraySpan: marked("a span without evidence"),
    Limit: marked("a span of a line without evidence"),
    Series: marked("a series without evidence"),
    Supersession: marked("a supersession without evidence"),
    Conversion: marked("a conversion without evidence"),
}


def _without(register: Register) -> Iterator[Finding]:
    for statement in register.statements:
        lacking = _NEEDING.get(type(statement.subject))
        if lacking and all(piece.against for piece in statement.evidence):
            place = statement.record.origin.place(*statement.path)
            todo = _("name the source or the teardown it rests on under evidence")
            yield Finding(place, _(lacking), todo)


def _silent(register: Register) -> Iterator[Finding]:
    for record, leaf in Walk(Role.REFERENCE).over(register.records):
        if isinstance(leaf.holder, Evidence) and leaf.holder.against and not leaf.holder.note:
            read = _("{} speaks against it, and nothing says how").format(leaf.value)
            yield Finding(record.origin.place(*leaf.at), read, _("say under note what it says instead"))


def _unused(register: Register) -> Iterator[Finding]:
    for source in register.sources.values():
        if source not in register.cited and not register.unread.may_name(source.id):
            todo = _("name it as evidence where it is used, or delete it")
            yield Finding(
                source.origin.place("id"), _("no statement names the source {}").format(source.id), todo
            )


CHECKS = (
    Check(STATEMENT_WITHOUT_EVIDENCE, _without),
    Check(AGAINST_WITHOUT_NOTE, _silent),
    Check(SOURCE_UNUSED, _unused),
)
