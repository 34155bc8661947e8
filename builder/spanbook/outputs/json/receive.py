"""What somebody sent, as one JSON object; `schema/answer-receive.json` is its law."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from spanbook.outputs.problems.json import problem_object
from spanbook.reading.packets import Packet
from spanbook.reading.problems import Finding, Problem, Severity

Object = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Where:
    """Where it was laid, or why it was not; all empty where nobody asked for it."""

    branch: str | None = None
    folder: str | None = None
    refused: str | None = None


def as_object(
    packet: Packet,
    files: Iterable[tuple[str, str, bool]],
    problems: Sequence[Problem],
    changes: Sequence[str],
    where: Where,
) -> Object:
    """`files` are the path in the content folder, what becomes of it, and whether it was made anew."""
    told = {
        "site": packet.site,
        "made": packet.made,
        "by": packet.by,
        "data": packet.data or None,
        "note": packet.note or None,
        "left-out": list(packet.left_out),
    }
    listed = [{"path": f"content/{path}", "how": how, "anew": anew} for path, how, anew in files]
    return _object(told, listed, problems, changes, where)


def refused_object(findings: Iterable[Finding], why: str) -> Object:
    """A file that is no packet."""
    told = [Problem(one.place, Severity.ERROR, "no-packet", one.read, one.todo) for one in findings]
    return _object(None, [], told, (), Where(refused=why))


def _object(
    packet: Object | None,
    files: list[Object],
    problems: Sequence[Problem],
    changes: Sequence[str],
    where: Where,
) -> Object:
    return {
        "kind": "receive",
        "packet": packet,
        "files": files,
        "problems": [*map(problem_object, problems)],
        "changes": list(changes),
        "branch": where.branch,
        "folder": where.folder,
        "refused": where.refused,
    }
