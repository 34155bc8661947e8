"""A share made by somebody's own executor, here or on another machine: it gives back the bytes it made."""

from __future__ import annotations

import threading
from collections.abc import Iterable
from dataclasses import dataclass

from spanbook.ground.digests import digest
from spanbook.outputs.folder.written import Written
from spanbook.press import freight
from spanbook.press.freight import Freight
from spanbook.press.jobs import Done, Job
from spanbook.press.work import Work
from spanbook.site.each import File


@dataclass(frozen=True, slots=True)
class Share:
    """What a job has made, and the files themselves."""

    done: Done
    files: tuple[File, ...]


class _Bytes:
    """Files that go to whoever asked for them."""

    def __init__(self) -> None:
        self.files: list[File] = []

    def put(self, path: str, data: bytes) -> Written:
        self.files.append((path, data))
        return Written(path, len(data), digest(data))

    def keep(self, files: Iterable[Written]) -> None:
        raise AssertionError("there is no site of old")


class _Held:
    """What the shares of this process are made from: one site at a time, loaded once."""

    name = ""
    work: Work | None = None
    # Answers are kept as they are worked out: threads of one process take turns.
    turn = threading.Lock()


def share(name: str, job: Job, sent: Freight | None = None) -> Share | None:
    """Do a job of the site that is called so; None where it has to be sent along, because it is not here."""
    with _Held.turn:
        work = _work(name, sent)
        if work is None:
            return None
        into = _Bytes()
        done = job.do(work, into, lambda count: None)
        return Share(done, tuple(into.files))


def _work(name: str, sent: Freight | None) -> Work | None:
    if _Held.name == name:
        return _Held.work
    found = sent or freight.kept(name)
    if found is None:
        return None
    if sent:
        freight.keep(sent)
    _Held.work, _Held.name = freight.unpack(found), name
    return _Held.work


def forget() -> None:
    """Let go of the site that this process holds."""
    with _Held.turn:
        _Held.work, _Held.name = None, ""
