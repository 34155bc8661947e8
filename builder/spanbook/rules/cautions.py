"""Where the work can hurt someone, the record says so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache

from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Caution, Record
from spanbook.reading.roles import Role
from spanbook.reading.shapes import shape_of
from spanbook.reading.walk import walk
from spanbook.register.model import Register
from spanbook.rules.check import Check

_FILE = "# file: content/assemblies/plug.yml\nkind: assembly\nid: plug\ntitle: Plug\nposition: body/drain\n"
_BAD = _FILE + "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
_DECLINED = "declined: [{caution: used-oil, why: It closes an empty chamber}]\n"

CAUTION_MISSING = Rule(
    "caution-missing",
    Severity.WARNING,
    "A reader at the bench sees only this page: what can hurt has to be said on it.",
    bad=_BAD,
    good=_BAD + "cautions: [used-oil]\n",
)
CAUTION_DECLINED = Rule(
    "caution-declined",
    Severity.WARNING,
    "What is declined is called for by something, and not named as well: only one of the two can hold.",
    bad=_BAD.replace("Plug", "Plug of the sump") + "cautions: [used-oil]\n" + _DECLINED,
    good=_BAD.replace("Plug", "Plug of the sump") + _DECLINED,
)


def _missing(register: Register) -> Iterator[Finding]:
    for record, key, called in _called(register):
        named = {leaf.value for leaf in walk(record, Role.REFERENCE, to="caution")}
        for id_, why in called.items():
            if id_ not in named:
                read = _("“{why}” calls for the caution {id}").format(why=why, id=id_)
                todo = _("add {id} to {key}, or name it under declined and say why it does not apply").format(
                    id=id_, key=key
                )
                yield Finding(record.origin.place(key), read, todo)


def _declined(register: Register) -> Iterator[Finding]:
    for record, key, called in _called(register):
        leaves = walk(record, Role.REFERENCE, to="caution")
        held = {leaf.value for leaf in leaves if not leaf.at}
        for leaf in leaves:
            if leaf.at and leaf.value in held:
                read, todo = (
                    _("{value} declined, and it stands under {key} too").format(value=leaf.value, key=key),
                    _("keep one of the two"),
                )
                yield Finding(record.origin.place(*leaf.steps), read, todo)
            elif leaf.at and leaf.value not in called and leaf.value in register.cautions:
                read = _("{} declined, and nothing here calls for it").format(leaf.value)
                yield Finding(record.origin.place(*leaf.steps), read, _("take it away"))


def _called(register: Register) -> Iterator[tuple[Record, str, dict[str, str]]]:
    """Records that can name cautions, under which key, and what calls for which: a word or a position."""
    words = {word.casefold(): c.id for c in register.cautions.values() for word in c.words}
    # One pattern of all words, each escaped: a record brings words, never a pattern.
    pattern = re.compile(rf"\b(?:{'|'.join(map(re.escape, sorted(words, key=len, reverse=True)))})\b")
    for record in register.records:
        key = _key(record.kind)
        if key is not None:
            called = _by_position(record, register.cautions.values())
            if words:
                called |= {words[word]: word for word in pattern.findall(_text(record))}
            yield record, key, called


@cache
def _key(kind: str) -> str | None:
    """Where records of a kind name the cautions that apply to work on them; None where they cannot."""
    slots = (slot for slot in shape_of(kind).slots if slot.to == "caution")
    return next((slot.key for slot in slots), None)


def _by_position(record: Record, cautions: Iterable[Caution]) -> dict[str, str]:
    position = next((leaf.value for leaf in walk(record, Role.PLACE) if not leaf.at), "")
    return {
        caution.id: group
        for caution in cautions
        for group in caution.positions
        if f"{position}/".startswith(f"{group}/")
    }


def _text(record: Record) -> str:
    """What a reader of the record reads, folded to small letters."""
    roles = (Role.NAME, Role.SIGN, Role.MARKDOWN)
    return "\n".join(leaf.value for role in roles for leaf in walk(record, role)).casefold()


CHECKS = (Check(CAUTION_MISSING, _missing), Check(CAUTION_DECLINED, _declined))
