"""What was sent under names that others have, under free names of its own: nothing takes another's place."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import count
from pathlib import PurePosixPath

from spanbook.reading import read_bytes
from spanbook.reading.edit import Draft
from spanbook.reading.files import PICTURES
from spanbook.reading.kinds import BY_FOLDER
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import Leaf, walk
from spanbook.register.model import Register

_PHOTOGRAPHS = "photographs/"


@dataclass(frozen=True, slots=True)
class Beside:
    """Files by the paths that they get; `sent_as` has those that they came with, where they are others."""

    files: Mapping[str, bytes]
    sent_as: Mapping[str, str]


def read_sent(files: Mapping[str, bytes]) -> dict[str, Record]:
    """The sound records among files that were sent, by their paths; what is wrong with others, rules tell."""
    found = {}
    for path, data in files.items():
        kind = BY_FOLDER.get(path.partition("/")[0])
        if kind and path.endswith(".yml"):
            read = read_bytes(data, path, kind.name, PurePosixPath(path).stem)
            if isinstance(read, Record):
                found[path] = read
    return found


def lay_beside(
    files: Mapping[str, bytes],
    clashing: Iterable[str],
    there: Collection[str],
    is_there: Callable[[str, bytes], bool],
    register: Register,
) -> Beside:
    """The files, those at the paths `clashing` under names that neither are `there` nor in the register.

    A record gets another id, a picture another name, and whatever was sent with them calls them so. What was
    laid beside before, as `is_there` tells, gets the name that it got then.
    """
    records = read_sent(files)
    taken, paths, ids = {*there, *files}, dict[str, str](), dict[tuple[str, str], str]()
    # Pictures first: records name them.
    for path in sorted(clashing, key=lambda path: (path in records, path)):
        record = records.get(path)
        if not record and not path.endswith(PICTURES):
            continue
        for new in _names(path):
            id_ = PurePosixPath(new).stem
            here = {**ids, _of(record): id_} if record else ids
            data = _renamed(record, here, paths) if record else files[path]
            known = record is not None and id_ in register.things.get(record.kind, {})
            if is_there(new, data) or not (known or new in taken):
                break
        paths[path], ids = new, here
        taken.add(new)
    # What only names such a record may be there already, as it is then.
    for path in [path for path in paths if path in records]:
        record, others = records[path], {of: id_ for of, id_ in ids.items() if of != _of(records[path])}
        if is_there(path, _renamed(record, others, paths)):
            del paths[path]
            ids = others
    made = {
        paths.get(path, path): _renamed(records[path], ids, paths) if path in records else data
        for path, data in files.items()
    }
    return Beside(made, {new: old for old, new in paths.items()})


def _of(record: Record) -> tuple[str, str]:
    return record.kind, record.id


def _names(path: str) -> Iterator[str]:
    stem, dot, ending = path.rpartition(".")
    return (f"{stem}-{number}{dot}{ending}" for number in count(2))


def _renamed(record: Record, ids: Mapping[tuple[str, str], str], paths: Mapping[str, str]) -> bytes:
    """A record in which what gets another name is called by it; unchanged where it names none of that."""
    draft, changed = Draft(record.origin.data), False
    for leaf in walk(record, Role.ID, Role.REFERENCE, Role.PLACE, Role.PICTURE):
        if new := _new(record, leaf, ids, paths):
            draft.replace(leaf.steps, new)
            changed = True
    return draft.result() if changed else record.origin.data


def _new(
    record: Record, leaf: Leaf, ids: Mapping[tuple[str, str], str], paths: Mapping[str, str]
) -> str | None:
    if leaf.role is Role.ID:
        return ids.get((record.kind, leaf.value)) if leaf.steps == ("id",) else None
    if leaf.role is Role.PICTURE:
        new = paths.get(leaf.value) or paths.get(f"{_PHOTOGRAPHS}{leaf.value}")
        return new if new is None or leaf.value in paths else new.removeprefix(_PHOTOGRAPHS)
    return ids.get((leaf.to, leaf.value))
