"""Only what changed: which parts of a site are as they were, by what they were made from.

A part is carried on where nothing has changed of what was read for it, and nothing that all parts rest on:
the program, the settings, what stands around the pages, and the ground of the register.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import reduce
from hashlib import sha256
from itertools import groupby
from pathlib import Path
from typing import Any
from uuid import uuid4

from spanbook.answers.answers import Answers
from spanbook.ground.language import spoken
from spanbook.ground.memo import Memo
from spanbook.ground.notes import Name, Noted, Notes
from spanbook.press.jobs import Done, NotedThere
from spanbook.press.parts import Part
from spanbook.press.work import Noting, Work
from spanbook.reading import kept_files, sealed
from spanbook.register.cells import Cells, ground, lasting
from spanbook.register.watched import Watched, watched
from spanbook.site.common import Site

# The tables of a site that are given, or made of all records, where one who reads them needs an entry or two.
_TABLES = ("shelf", "album", "former_pages", "former_anchors", "keys", "readable", "pictures_at")
_GROWN = 1.5  # so many times as much as is needed is kept, until it is gone over
_MOST_KEPT = 1_000_000_000  # bytes, some ten large sites


@dataclass(frozen=True, slots=True)
class Kept:
    """What one build keeps for the next: its parts, what was noted meanwhile, and what stood in each cell.

    `state` is what all of them rest on, `whole` how many numbers there were when each was of some part.
    """

    state: str
    parts: tuple[Part, ...]
    noted: Noted
    cells: Mapping[Name, bytes]
    whole: int


@dataclass(frozen=True, slots=True)
class Asked:
    """`program` is the digest of all that is not in the content folder, `left` the name under which the parts
    of the site are kept whose place the new one takes, empty where nothing is."""

    program: str
    left: str


class Again:
    """One build of a site of which parts may be carried on."""

    def __init__(self, asked: Asked, work: Work) -> None:
        self._notes = Notes()
        self._left, self._state = asked.left, _state(asked.program, work)
        tables = {name: getattr(work.site, name) for name in _TABLES}
        cells = Cells(work.site.register, tables)
        self._stands = Memo(cells.at)
        self._before = self._taken()
        self.work = replace(
            work,
            site=_noting(work.site, tables, self._notes),
            noting=Noting(self._notes, cells.printed),
            before={part.key: part._replace(carried=True) for part in self._fresh()},
        )

    def _taken(self) -> Kept | None:
        found = sealed.take(_file(self._left)) if self._left else None
        return found if isinstance(found, Kept) and found.state == self._state else None

    def _fresh(self) -> Iterable[Part]:
        """The parts that are as they were."""
        if self._before is None:
            return ()
        cells = self._before.cells
        stale = self._before.noted.stale(lambda name: self._stands(name) != cells[name])
        return (one for one in self._before.parts if one.step is not None and not stale[one.step])

    def keep(self, done: Sequence[Done]) -> str:
        """Keep what was made for the next build; under which name, empty where nothing can be kept."""
        parts, noted, whole = _gathered(done, lasting(self._notes.since(0)), self._before)
        cells = {name: self._stands(name) for _, name in noted.cells}
        name = uuid4().hex
        try:
            sealed.put(_file(name), Kept(self._state, parts, noted, cells, whole), _MOST_KEPT)
        except OSError:  # the next time is slower, and nothing else
            return ""
        if self._left:
            let_go(self._left)
        return name


def let_go(name: str) -> None:
    """Of the site whose parts are kept under a name nothing will be carried on any more."""
    with suppress(OSError):
        _file(name).unlink(missing_ok=True)


def _noting(site: Site, tables: Mapping[str, Mapping[Any, Any]], notes: Notes) -> Site:
    """The same site, which notes what is read of its records and of its tables, and keeps nothing yet."""
    answers = Answers(watched(site.register, notes), site.answers.read_assumed)
    made = Site(answers, releases=site.releases)
    for name, table in tables.items():
        vars(made)[name] = Watched(name, table, notes)
    return made


def _file(name: str) -> Path:
    return kept_files.folder("parts") / name


def _gathered(done: Sequence[Done], own: Noted, before: Kept | None) -> tuple[tuple[Part, ...], Noted, int]:
    """All parts by one numbering, what every process has noted after what is carried on, and of that how much
    there was when it held nothing for nobody."""
    noted = before.noted if before else Noted()
    old = len(noted.ends)
    noted = noted.beside(own)
    moved: dict[int, tuple[int, int]] = {}  # by process its first number, and by how many they are moved
    elsewhere = sorted((one.noted for one in done if one.noted), key=lambda one: (one.process, one.first))
    for process, found in groupby(elsewhere, key=lambda one: one.process):
        tails = list(found)
        # What is below was noted before there were several.
        first = tails[0].first
        moved[process] = first, len(noted.ends) - first
        noted = noted.beside(reduce(Noted.then, (one.noted for one in tails)), first, old)

    def step(part: Part, by: NotedThere | None) -> int:
        assert part.step is not None, "it is kept"
        if part.carried:
            return part.step
        first, offset = moved[by.process] if by else (0, old)
        return part.step + (offset if part.step >= first else old)

    parts = [
        part._replace(step=step(part, one.noted), carried=False)
        for one in done
        for part in one.parts
        if part.step is not None
    ]
    whole = before.whole if before else len(noted.ends)
    if len(noted.ends) > _GROWN * whole:
        noted, now = noted.only(part.step for part in parts if part.step is not None)
        parts, whole = [part._replace(step=now[part.step or 0]) for part in parts], len(noted.ends)
    return tuple(parts), noted, whole


def _state(program: str, work: Work) -> str:
    """All that parts rest on and that is not watched."""
    site = work.site
    rest = (
        *(program, spoken(), ground(site.register), site.answers.assumed, site.releases, work.guides),
        *(work.around, sorted(work.shells.items()), work.wanted, work.pictured, work.base, work.edited),
        work.place.rights,
    )
    return sha256(repr(rest).encode("utf-8", "surrogateescape")).hexdigest()
