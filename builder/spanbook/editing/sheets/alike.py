"""Drafts that are likely something that is recorded or drafted already, under another id."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from spanbook.editing.sheets.drafts import Draft
from spanbook.reading.nodes import plain
from spanbook.register.model import Register

_ALIKE = 88.0  # of 100, by words in any order
# What is read for one another on worn castings and in old print.
_CONFUSED = str.maketrans("OIL", "011")
_NAMED = ("old", "new", "numbers")


@dataclass(frozen=True, slots=True)
class Alike:
    """A draft and what it is like: `path` is the file of a record, empty for another draft. Both are told by
    what makes them alike: a title, a number, a serial number and a day."""

    draft: str
    said: str
    other: str
    other_said: str
    path: str


def alike(register: Register, kind: str, drafts: Iterable[Draft]) -> Iterator[Alike]:
    """Likely duplicates among drafts of a kind, and of drafts with records; each pair once."""
    things = [_Thing.of(draft.id, "", draft.values) for draft in drafts]
    there = [
        _Thing.of(id_, record.origin.path, values)
        for id_, record in register.things.get(kind, {}).items()
        if isinstance(values := plain(record.origin.node), dict)
    ]
    yield from _by_number(things, there)
    yield from _by_title(things, there)


@dataclass(frozen=True, slots=True)
class _Thing:
    """`number` is what tells it by numbers, `title` what it is called, within `block` alone."""

    id: str
    path: str
    number: str
    shown: str
    title: str
    block: str

    @classmethod
    def of(cls, id_: str, path: str, values: Mapping[str, Any]) -> _Thing:
        title = values.get("title")
        number = _number_of(values)
        block = values.get("position") if isinstance(values.get("position"), str) else ""
        return cls(id_, path, _bare(number), number, title if isinstance(title, str) else "", str(block))


def _number_of(values: Mapping[str, Any]) -> str:
    """What tells a record by numbers: a part its own, an act those that it replaces, a look the machine and
    day."""
    said = [str(values[key]) for key in ("number", "serial", "date") if isinstance(values.get(key), str)]
    for key in _NAMED:
        uses = values.get(key)
        for use in uses if isinstance(uses, list) else ():
            if isinstance(use, Mapping):
                said.append(str(use.get("number") or use.get("serial") or ""))
    return " ".join(said)


def _bare(number: str) -> str:
    return re.sub(r"[^A-Z0-9 ]", "", number.upper()).replace(" ", "").translate(_CONFUSED)


def _plain_words(title: str) -> str:
    return " ".join(re.findall(r"\w+", title.casefold()))


def _by_number(things: list[_Thing], there: list[_Thing]) -> Iterator[Alike]:
    same = defaultdict[str, list[_Thing]](list)
    for thing in (*there, *things):
        if thing.number:
            for other in same[thing.number] if not thing.path else ():
                if other.id != thing.id:
                    yield Alike(thing.id, thing.shown, other.id, other.shown, other.path)
                    break
            same[thing.number].append(thing)


def _by_title(things: list[_Thing], there: list[_Thing]) -> Iterator[Alike]:
    from rapidfuzz import fuzz, process  # only who has sheets has it

    blocks = defaultdict[tuple[str, str], list[_Thing]](list)
    for thing in (*there, *things):
        if not thing.title:
            continue
        # Mark 1 and Mark 2 are two things, however alike their titles.
        block = blocks[thing.block, " ".join(re.findall("[0-9]+", thing.title))]
        if not thing.path and block:
            titles = [_plain_words(other.title) for other in block]
            best = process.extractOne(
                _plain_words(thing.title), titles, scorer=fuzz.token_sort_ratio, score_cutoff=_ALIKE
            )
            if best and block[best[2]].id != thing.id:
                other = block[best[2]]
                yield Alike(thing.id, thing.title, other.id, other.title, other.path)
        block.append(thing)
