"""Former names: each still leads to the one thing that had it."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import FormerNumber, Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import Leaf, Walk
from spanbook.register.ids import ids_inside
from spanbook.register.model import Register
from spanbook.rules.check import Check

_GOOD = (
    "# file: content/sources/letter-a.yml\nkind: source\nid: letter-a\ntitle: A letter\n"
    "class: correspondence\n"
)
_LID = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, formerly: [span-early], evidence: [{source: book}]}\n"
    "- {series: xa, first: 30, last: 40, anchor: span-late, evidence: [{source: book}]}\n"
)

FORMER_ID_TAKEN = Rule(
    "former-id-taken",
    Severity.ERROR,
    "A former id or number still leads to what had it; another thing there would break old links.",
    bad=_GOOD + "formerly: [book]\n",
    good=_GOOD + "formerly: [letter-one]\n",
)
FORMER_ANCHOR_TAKEN = Rule(
    "former-anchor-taken",
    Severity.ERROR,
    "A link to a statement still leads to it, whatever its address on the page is today.",
    bad=_LID.replace("span-early", "span-late"),
    good=_LID,
)
_FORMERS = Walk(Role.FORMER)
_Name = tuple[str, object]  # a sort of thing, and a name or a part number


def _taken(register: Register) -> Iterator[Finding]:
    """A name is whose it is today, and otherwise the first record's that says it had it."""
    formers = [(record, found) for record in register.records if (found := _FORMERS(record))]
    had = _today(register) if formers else {}
    for record, leaves in formers:
        named = {steps[:-1]: (sort, id_) for steps, sort, id_ in ids_inside(record)}
        for leaf in leaves:
            if leaf.to != "anchor":
                mine = (record, named.get(leaf.at, (record.kind, record.id)))
                name = _name(register, record, leaf)
                holder = had.setdefault(name, mine)
                if holder != mine or name == mine[1]:
                    said = _(_SAID.get(leaf.to, _ID)).format(name=leaf.value, path=_whose(holder))
                    yield Finding(record.origin.place(*leaf.steps), said, _("keep it in one place only"))


_ID = marked("the former id {name}, which {path} has")
_SAID = {
    "number": marked("the former number {name}, which {path} has"),
    "position": marked("the former name {name}, which {path} has"),
}


def _today(register: Register) -> dict[_Name, tuple[Record, _Name]]:
    """What has each name today: its record, and what it goes by in it."""
    had: dict[_Name, tuple[Record, _Name]] = {}
    for record in register.records:
        had.setdefault((record.kind, record.id), (record, (record.kind, record.id)))
        for __, sort, id_ in ids_inside(record):
            had.setdefault((sort, id_), (record, (sort, id_)))
    for key, part in register.parts.items():
        had.setdefault(("number", key.plain), (part.records[0], ("number", key.plain)))
    return had


def _name(register: Register, record: Record, leaf: Leaf) -> _Name:
    if leaf.to == "number":
        by = leaf.beside(Role.OWNER) or getattr(record, "by", None) or register.owner(record)
        means = leaf.holder.means if isinstance(leaf.holder, FormerNumber) else None
        return "number", PartKey.of(by or "", leaf.value, means or "")
    return leaf.to or record.kind, leaf.value


def _whose(holder: tuple[Record, _Name]) -> str:
    return holder[0].origin.path


def _anchors(register: Register) -> Iterator[Finding]:
    for record, statements in register.statements_of.items():
        if not (leaves := _FORMERS(record)):
            continue
        had = {statement.anchor: statement.path for statement in statements}
        for leaf in leaves:
            if leaf.to == "anchor" and had.setdefault(leaf.value, leaf.at) is not leaf.at:
                read = _("the former anchor {}, which another statement here has").format(leaf.value)
                yield Finding(record.origin.place(*leaf.steps), read, _("keep it with one of them only"))


CHECKS = (Check(FORMER_ID_TAKEN, _taken), Check(FORMER_ANCHOR_TAKEN, _anchors))
