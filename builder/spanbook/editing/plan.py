"""The files of a content folder as they are to be, put together change by change."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass

from spanbook.reading.edit import Draft, NotEditable
from spanbook.reading.records import Record


class CannotChange(Exception):  # noqa: N818 - it says what cannot be done
    """Nothing was changed. The message says why, and what to do."""


@dataclass(frozen=True, slots=True)
class FileChange:
    """A file, by its path in the content folder: None where there is none, before or after."""

    before: str | None
    after: str | None
    was: bytes
    now: bytes


@dataclass(frozen=True, slots=True)
class Plan:
    """Every file that changes, in the order of their paths."""

    files: tuple[FileChange, ...]


class Desk:
    """The files of records, and the guides, while they are worked on: each change sees those before it.

    Paths are those in the content folder; `root` is what paths of records begin with before that.
    """

    def __init__(self, records: tuple[Record, ...], guides: Mapping[str, bytes]) -> None:
        self._was = {_inside(record): record.origin.data for record in records} | dict(guides)
        self._now = dict(self._was)
        self._moved: dict[str, str] = {}
        self.guides = tuple(guides)

    @contextmanager
    def draft(self, record: Record) -> Iterator[Draft]:
        """A record's file to be changed, as it is by now; what cannot be is told with the file."""
        path = _inside(record)
        try:
            draft = Draft(self._now[path])
            yield draft
            self._now[path] = draft.result()
        except NotEditable as why:
            raise CannotChange(f"{record.origin.path}: {why}") from None

    def data(self, record: Record) -> bytes:
        """A record's file as it is by now."""
        return self._now[_inside(record)]

    def append(self, record: Record, text: str) -> None:
        """Lines at the end of a record's file."""
        whole = self.data(record)
        self._now[_inside(record)] = whole + (b"" if whole.endswith(b"\n") else b"\n") + f"{text}\n".encode()

    def text(self, path: str) -> str:
        return self._now[path].decode()

    def write(self, path: str, text: str) -> None:
        """A guide's new text, or a file that was not there."""
        self._now[path] = text.encode()

    def rename(self, record: Record, id_: str) -> None:
        """A record's file goes by another id, in the folder where it is."""
        path = _inside(record)
        self._moved[path] = f"{path.rpartition('/')[0]}/{id_}.yml"

    def remove(self, record: Record) -> None:
        del self._now[_inside(record)]

    def gone(self, record: Record) -> bool:
        return _inside(record) not in self._now

    def plan(self) -> Plan:
        found = []
        for path in sorted(self._was.keys() | self._now.keys()):
            was, now = self._was.get(path), self._now.get(path)
            after = None if now is None else self._moved.get(path, path)
            if was != now or after != path:
                found.append(FileChange(path if was is not None else None, after, was or b"", now or b""))
        return Plan(tuple(found))


def _inside(record: Record) -> str:
    return record.origin.path.partition("/")[2]
