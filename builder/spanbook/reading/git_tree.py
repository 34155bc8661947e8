"""The content folder as it stood at a git revision, read out of git without laying it out.

Objects are read as they are: attributes that a stranger's tree may carry, which hide or alter files in an
archive, have no say, and nothing of the tree is run or written.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.reading.files import (
    CONTENT,
    PHOTOGRAPHS,
    Picture,
    Sort,
    in_hidden_folder,
    is_other,
    is_picture,
    is_too_long,
    is_yaml,
    sort_of,
)
from spanbook.reading.git import NoRevision, Objects, Repository
from spanbook.reading.text import LARGEST

_FILES = ("100644", "100755")  # what is neither, is a link or another repository


@dataclass(frozen=True, slots=True)
class Revision:
    """A content folder at a revision: the records' bytes at hand, those of all else read when asked for."""

    records: dict[str, bytes]
    shown: dict[str, tuple[str, Picture]]
    beside: dict[str, tuple[str, int]]
    links: frozenset[str]
    long: frozenset[str]
    objects: Objects

    def yaml_files(self) -> Iterator[tuple[str, bool]]:
        yield from ((path, False) for path in self.records)
        yield from ((path, True) for path in self.links)

    def too_long(self) -> Iterator[str]:
        yield from self.long

    def pictures(self) -> Iterator[Picture]:
        yield from (picture for __, picture in self.shown.values())

    def others(self) -> Iterator[str]:
        yield from self.beside

    def read(self, relative: str, most: int) -> bytes:
        if relative in self.records:
            return self.records[relative]
        if relative in self.shown:
            name, size = self.shown[relative][0], self.shown[relative][1].size
        else:
            name, size = self.beside[relative]
        if size >= most:
            return bytes(most)  # git may hold gigabytes: the size is enough to refuse it
        return self.objects.read(name)[:most]


def content_at(project: Path, revision: str) -> Revision:
    """The content folder of a project at a revision. Raises NoRevision."""
    repository = Repository(project)
    return content_of(repository, repository.commit(revision), revision)


def content_of(repository: Repository, tree: str, called: str) -> Revision:
    """The same of a tree or commit by git's own name for it, which a message calls otherwise."""
    listed = repository.ask("ls-tree", "-r", "-l", "-z", tree, "--", CONTENT)
    names: dict[str, str] = {}
    made: dict[str, bytes] = {}
    shown: dict[str, tuple[str, Picture]] = {}
    beside: dict[str, tuple[str, int]] = {}
    links, long = set(), set()
    for line in listed.decode("utf-8", "surrogateescape").split("\0")[:-1]:
        about, __, path = line.partition("\t")
        mode, __, name, size = about.split()
        relative = path.removeprefix(CONTENT)
        if is_too_long(relative):
            long.add(_cut(relative))
            continue
        linked = mode not in _FILES
        if linked:
            links.add(relative)
        if in_hidden_folder(relative):
            continue
        if is_picture(relative):
            shown[relative] = (name, Picture(relative, int(size) if size.isdigit() else 0, linked))
        if not linked and is_other(relative):
            beside[relative] = name, int(size)
        if not linked and is_yaml(relative):
            if int(size) > LARGEST:
                made[relative] = bytes(LARGEST + 1)  # git may hold gigabytes: the size is enough to refuse it
            else:
                names[relative] = name
    if not names and not made and not long:
        raise NoRevision(_("{called}: it has no records in {folder}").format(called=called, folder=CONTENT))
    blobs = _blobs(repository, names.values())
    made |= {path: blobs[name] for path, name in names.items()}
    return Revision(made, shown, beside, frozenset(links), frozenset(long), Objects(repository))


def _cut(path: str) -> str:
    """A path that is too long up to the folder where it becomes so."""
    ends = (at for at, letter in enumerate(path) if letter == "/" and is_too_long(path[:at]))
    return path[: next(ends, len(path)) + 1]


def touched(repository: Repository, old: str, new: str) -> tuple[str, ...]:
    """The files that differ between two trees or commits, from the project's folder on. Raises NoRevision.

    Where a project is a folder of its repository, those outside it have paths that begin with `../`.
    """
    # Nobody's settings may leave anything out.
    whole = ("--no-relative", "--ignore-submodules=none")
    names = repository.ask("diff", "--name-only", "--no-renames", "-z", *whole, old, new, "--")
    inside = repository.ask("rev-parse", "--show-prefix").decode("utf-8", "surrogateescape").rstrip("\n")
    found = filter(None, names.decode("utf-8", "surrogateescape").split("\0"))
    return tuple(posixpath.relpath(f"/{path}", f"/{inside}") for path in found)


def besides(paths: Iterable[str]) -> tuple[str, ...]:
    """Those files that are neither records nor photographs or drawings of theirs.

    Guides among the records are such files: what stands in them reaches readers as it is.
    """
    return tuple(path for path in paths if not _is_read_with_care(path))


def _is_read_with_care(path: str) -> bool:
    inside = path.startswith(CONTENT)
    return inside and (
        is_yaml(path)
        or path.startswith(f"{CONTENT}{PHOTOGRAPHS}")
        or sort_of(path.removeprefix(CONTENT)) is Sort.DRAWING
    )


def _blobs(repository: Repository, names: Iterable[str]) -> dict[str, bytes]:
    asked = "".join(f"{name}\n" for name in dict.fromkeys(names)).encode()
    answer, blobs, at = repository.ask("cat-file", "--batch", given=asked), {}, 0
    while at < len(answer):
        end = answer.index(b"\n", at)
        name, __, size = answer[at:end].split(b" ")
        blobs[name.decode()] = answer[end + 1 : end + 1 + int(size)]
        at = end + 2 + int(size)
    return blobs
