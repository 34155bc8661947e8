"""Where the work can hurt someone, the record says so."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from spanbook.reading.problems import Finding, Rule, Severity
from spanbook.reading.records import Assembly, Caution, Conversion, PartRecord
from spanbook.register.model import Register
from spanbook.rules.check import Check

_FILE = "# file: content/assemblies/plug.yml\nkind: assembly\nid: plug\ntitle: Plug\nposition: body/drain\n"
_BAD = _FILE + "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"

CAUTION_MISSING = Rule(
    "caution-missing",
    Severity.WARNING,
    "A reader at the bench sees only this page: what can hurt has to be said on it.",
    bad=_BAD,
    good=_BAD + "cautions: [used-oil]\n",
)

Cautioned = Assembly | PartRecord | Conversion


def _missing(register: Register) -> Iterator[Finding]:
    words = {word.casefold(): c.id for c in register.cautions.values() for word in c.words}
    # One pattern of all words, each escaped: a record brings words, never a pattern.
    pattern = re.compile(rf"\b(?:{'|'.join(map(re.escape, sorted(words, key=len, reverse=True)))})\b")
    for record in register.records:
        if isinstance(record, Cautioned):
            called = _by_position(record, register.cautions.values())
            if words:
                called |= {words[word]: word for word in pattern.findall(_text(record))}
            for id_, why in called.items():
                if id_ not in record.cautions:
                    read = f"“{why}” calls for the caution {id_}"
                    yield Finding(record.origin.place("cautions"), read, f"add {id_} to cautions")


def _by_position(record: Cautioned, cautions: Iterable[Caution]) -> dict[str, str]:
    position = "" if isinstance(record, PartRecord) else record.position
    return {
        caution.id: group
        for caution in cautions
        for group in caution.positions
        if f"{position}/".startswith(f"{group}/")
    }


def _text(record: Cautioned) -> str:
    """What a reader of the record reads, folded to small letters."""
    tell = () if isinstance(record, Conversion) else record.tell
    uses = record.parts if isinstance(record, Assembly) else ()
    names = (use.name or "" for use in uses)
    return "\n".join((record.title, *names, *tell, record.notes or "")).casefold()


CHECKS = (Check(CAUTION_MISSING, _missing),)
