"""The signs that a thing shows, as its page lists them, and all of a position as a key on paper."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.signs.key import Key, Seen
from spanbook.ground.language import gettext as _
from spanbook.reading.records import Assembly, PartRecord, Sign
from spanbook.register.statements import Shows
from spanbook.site.common import Linked, Site, Trust, linked
from spanbook.site.trust import trust
from spanbook.wording.signs import LOOKS, answer_line, nobody_line, shown_words, unparted_line


@dataclass(frozen=True, slots=True)
class SignLine:
    """One sign and what is seen of it; `trust` where that rests on evidence of its own."""

    anchor: str
    asks: str
    seen: str
    trust: Trust | None


def sign_lines(site: Site, record: Assembly | PartRecord) -> tuple[SignLine, ...]:
    """Every sign that a record says it shows, in its order."""
    said = (statement.subject for statement in site.register.statements_of.get(record, ()))
    trusted = {subject.shown: trust(site, subject) for subject in said if isinstance(subject, Shows)}
    signs = site.register.signs
    return tuple(
        SignLine(f"sign-{one.sign}", signs[one.sign].asks, shown_words(one), trusted.get(one))
        for one in record.signs
        if one.sign in signs
    )


@dataclass(frozen=True, slots=True)
class KeyRow:
    """One sign on paper: what to look at, what it takes, and what each answer speaks for."""

    asks: str
    look: str
    lines: tuple[Linked, ...]


@dataclass(frozen=True, slots=True)
class PaperKey:
    """Every sign at a position, what tells most first, and the pairs that none of them parts."""

    rows: tuple[KeyRow, ...]
    unparted: tuple[Linked, ...]


def paper_key(site: Site, position: str) -> PaperKey | None:
    """The signs by which the assemblies at a position are told apart; None where none is recorded."""
    key = site.answers.key(position)
    if not key.signs or len(key.things) < 2:
        return None
    first = [look.sign for look in key.told(Seen()).looks]
    signs = (*first, *(sign for sign in key.signs if sign not in first))
    unparted = (linked(unparted_line(*pair)) for pair in key.unparted)
    return PaperKey(tuple(_row(key, sign) for sign in signs), tuple(unparted))


def _row(key: Key, sign: Sign) -> KeyRow:
    shown = {answer: [one for one in key.things if answer in one.answers(sign.id)] for answer in sign.answers}
    lines = [answer_line(answer, things) for answer, things in shown.items() if things]
    unknown = [one for one in key.things if sign.id not in one.shows]
    last = [nobody_line(unknown)] if unknown else []
    return KeyRow(sign.asks, _(LOOKS[sign.look]), tuple(linked(line) for line in (*lines, *last)))
