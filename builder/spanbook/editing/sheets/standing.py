"""Whether a draft is among the records already, so that a sheet can be read again and nothing is there twice.

A draft bears a mark, a comment at its head: the id that the sheet gave it and a digest of what the sheet
said. It is known by that, or by its id or a former one, wherever somebody has put it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from hashlib import sha256

from spanbook.editing.sheets.citing import rows_text
from spanbook.editing.sheets.drafts import Draft, text_of
from spanbook.reading.records import Record
from spanbook.register.model import Register

_MARK = re.compile(rb"^# Drafted from .* as ([a-z0-9-]+) \(([0-9a-f]{12})\)$", re.MULTILINE)
_HEAD = re.compile(rb"# Drafted from [^\n]*\n(?:# yaml-language-server: [$]schema=[^ \n]+\n)?")
# Rows move when others are put in between; what they say does not.
_ROWS = re.compile(r"\brows? [0-9][0-9 ,to…]*")


class State(StrEnum):
    """new: no record of it. taken: it is among the records. otherwise: it is, and the sheet says otherwise
    than when it was drafted. there: a record that comes from no sheet has its id."""

    NEW = "new"
    TAKEN = "taken"
    OTHERWISE = "otherwise"
    THERE = "there"


@dataclass(frozen=True, slots=True)
class Standing:
    """`path` is the record's file; empty where there is none."""

    state: State
    path: str = ""


def standing_of(register: Register, kind: str, drafts: Iterable[Draft]) -> Mapping[str, Standing]:
    """How each draft of a kind stands to what is recorded, by its id."""
    records = dict(register.things.get(kind, {}))
    marks = {
        mark[0]: (record, mark[1]) for record in records.values() if (mark := mark_of(record.origin.data))
    }
    found = {}
    for draft in (one for one in drafts if one.kind == kind):
        now = register.former.ids.get((kind, draft.id), draft.id)
        found[draft.id] = _standing(draft, marks.get(draft.id), records.get(now))
    return found


def _standing(draft: Draft, marked: tuple[Record, str] | None, record: Record | None) -> Standing:
    if marked:
        state = State.TAKEN if marked[1] == digest(text_of(draft)) else State.OTHERWISE
        return Standing(state, marked[0].origin.path)
    return Standing(State.THERE, record.origin.path) if record else Standing(State.NEW)


def marked(draft: Draft, where: str, schema_address: str | None = None) -> str:
    """The draft as a file, with its mark; `where` names the sheet."""
    rows = f", {rows_text(draft.rows)}" if draft.rows else ""
    mark = f"# Drafted from {where}{rows} as {draft.id} ({digest(text_of(draft))})\n"
    return mark + text_of(draft, schema_address)


def mark_of(data: bytes) -> tuple[str, str] | None:
    """The id and the digest of a mark in a file."""
    found = _MARK.search(data, 0, 2000)
    return (found[1].decode(), found[2].decode()) if found else None


def untouched(data: bytes) -> bool:
    """Whether a draft's file is as it was written."""
    mark, head = mark_of(data), _HEAD.match(data)
    return (
        mark is not None
        and head is not None
        and mark[1] == digest(data[head.end() :].decode("utf-8", "replace"))
    )


def digest(text: str) -> str:
    """What a sheet said of a record, whichever rows it stood in."""
    return sha256(_ROWS.sub("", text).encode()).hexdigest()[:12]
