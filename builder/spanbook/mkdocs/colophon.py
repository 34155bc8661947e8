"""What stands at the foot of every page: how old the records are, and whom to write to."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from spanbook.ground.licences import Licence
from spanbook.reading.git import last_changed
from spanbook.wording.front import as_of


@dataclass(frozen=True, slots=True)
class Colophon:
    """`day` is that of the records in figures, empty where nobody knows it; `contact` is an address for
    links, `mailto:` too; `licence` is that of the records, which MkDocs' own setting `copyright` may put in
    other words; `feed`: whether there is one of the releases."""

    as_of: str | None
    day: str
    contact: str | None
    licence: Licence | None
    feed: bool


def colophon(content: Path, contact: str | None, licence: Licence | None, feed: bool) -> Colophon:
    changed = last_changed(content)
    return Colophon(as_of(changed) if changed else None, str(changed or ""), contact, licence, feed)
