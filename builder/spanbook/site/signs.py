"""The signs that a thing shows, as its page lists them."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.records import Assembly, PartRecord
from spanbook.register.statements import Shows
from spanbook.site.common import Site, Trust
from spanbook.site.trust import trust
from spanbook.wording.signs import shown_words


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
