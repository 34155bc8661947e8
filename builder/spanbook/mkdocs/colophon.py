"""What stands at the foot of every page: how old the records are, and whom to write to."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from spanbook.reading.git import last_changed
from spanbook.wording.front import as_of


@dataclass(frozen=True, slots=True)
class Colophon:
    """`day` is that of the records in figures, empty where nobody knows it; `contact` is an address for
    links, `mailto:` too; the licence is MkDocs' own setting `copyright`."""

    as_of: str | None
    day: str
    contact: str | None


def colophon(content: Path, contact: str | None) -> Colophon:
    changed = last_changed(content)
    return Colophon(as_of(changed) if changed else None, str(changed or ""), contact)
