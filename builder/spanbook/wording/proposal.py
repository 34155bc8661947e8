"""What a proposal touches besides records, which somebody has to read before it is taken in."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from spanbook.reading.files import CONTENT
from spanbook.wording.grammar import plural

_FORGE = "Workflows, hooks and what else the forge or git obeys: read each as a program"
_SETTINGS = "Settings and programs: read each as a program"
_GUIDES = "Guides and what else lies among the records: read each as readers will"


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with its lines."""

    title: str
    lines: tuple[str, ...]


def headline(paths: Iterable[str]) -> str | None:
    """What has to be looked at before anything else; None where a proposal touches records alone."""
    count = len(tuple(paths))
    if not count:
        return None
    files = plural(count, "a file that is no record", "{} files that are no records")
    return f"Look before you take it in: it touches {files}, and no program judges what such a file does."


def besides(paths: Iterable[str]) -> Iterator[Section]:
    """The files that a proposal touches and that are no records, by how they have to be read."""
    sorts: dict[str, list[str]] = {_FORGE: [], _SETTINGS: [], _GUIDES: []}
    for path in paths:
        sorts[_sort(path)].append(path)
    yield from (Section(title, tuple(found)) for title, found in sorts.items() if found)


def _sort(path: str) -> str:
    if path.startswith("."):
        return _FORGE
    return _GUIDES if path.startswith(CONTENT) else _SETTINGS
