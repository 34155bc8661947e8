"""Which files of a content folder are records, and whether each is where and what it should be."""

from __future__ import annotations

import os
from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto
from pathlib import Path
from typing import Protocol

from spanbook.ground.language import gettext as _
from spanbook.ground.reserved import is_reserved
from spanbook.reading.kinds import BY_FOLDER, SINGLE
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity

_BODY = "kind: source\nid: letter-a\ntitle: A letter\nclass: correspondence\n"
_GOOD = "# file: content/sources/letter-a.yml\n" + _BODY

FILE_PLACE = Rule(
    "file-place",
    Severity.ERROR,
    "A record lives in its kind's folder and ends in .yml; anywhere else nobody would read it.",
    bad="# file: content/letters/letter-a.yml\n" + _BODY,
    good="# file: content/sources/letters/letter-a.yml\n" + _BODY,
)
FILE_LINK = Rule(
    "file-link",
    Severity.ERROR,
    "A link can lead out of the folder and reads differently on another machine; a pipe never ends.",
    bad=_GOOD + "# link: content/sources/letter-b.yml -> letter-a.yml\n",
    good=_GOOD,
)
FILE_CLASH = Rule(
    "file-clash",
    Severity.ERROR,
    "Some disks hold names that differ only in capitals to be one file; one record would be lost.",
    bad=_GOOD + "# file: content/sources/Letter-A.yml\n" + _BODY,
    good=_GOOD,
)
FILE_RESERVED = Rule(
    "file-reserved",
    Severity.ERROR,
    "Windows keeps names such as con and nul for itself and cannot hold such a file.",
    bad="# file: content/sources/nul.yml\n" + _BODY.replace("letter-a", "nul"),
    good=_GOOD,
)
MOST_PATH = 200  # bytes, from the content folder on
FILE_LONG = Rule(
    "file-path-long",
    Severity.ERROR,
    "Some disks hold no path much longer than 200 bytes; a clone there would fail or lose the file.",
    bad=f"# file: content/sources/{'letter-' * 28}a.yml\n" + _BODY,
    good=_GOOD,
)
RULES = (FILE_PLACE, FILE_LINK, FILE_CLASH, FILE_RESERVED, FILE_LONG)


# Where the records lie in a project, and the photographs and drawings among them.
CONTENT = "content/"
PHOTOGRAPHS = "photographs/"
DRAWINGS = "drawings/"
DRAWING = ".svg"
# What was released, as `spanbook release` wrote it down: read by nobody else.
RELEASES = "releases/"
_RELEASE = ".json"
# What a picture that a guide shows may end in.
PICTURES = (".jpg", ".jpeg", ".png", ".webp")
# Where the builder makes pages beside those of the records' folders: a guide there takes an address away.
_MADE = {
    "add",
    "along",
    "card",
    "cautions",
    "changes",
    "data",
    "find",
    "glossary",
    "holding",
    "open-questions",
    "plan",
    "positions",
    "report",
    "rules",
    "series",
    "which-part",
}
# What editors and systems leave behind: never read, never published.
_LEFTOVERS = ("~", "#", ".bak", ".orig", ".rej", ".swo", ".swp", ".tmp")
_DROPPINGS = {"thumbs.db", "ehthumbs.db", "desktop.ini", "icon\r"}


class Sort(Enum):
    """What a file of a content folder is, told by its path alone. What is not on this list is a stray."""

    RECORD = auto()
    PHOTOGRAPH = auto()
    DRAWING = auto()
    RELEASE = auto()
    GUIDE = auto()
    PICTURE = auto()
    LEFTOVER = auto()
    HIDDEN = auto()
    STRAY = auto()


def sort_of(path: str) -> Sort:
    """The sort of a file, by its path in the content folder."""
    name = path.rpartition("/")[2]
    if is_yaml(name):
        return Sort.RECORD
    if any(part.startswith(".") for part in path.split("/")):
        return Sort.HIDDEN
    if is_leftover(name):
        return Sort.LEFTOVER
    if path.startswith(PHOTOGRAPHS):
        return Sort.PHOTOGRAPH
    if path.startswith(DRAWINGS) and name.endswith(DRAWING):
        return Sort.DRAWING
    if path.startswith(RELEASES) and name.endswith(_RELEASE):
        return Sort.RELEASE
    top = path.split("/", 1)[0].lower()
    if (
        top.removesuffix(".md") in {*BY_FOLDER, *_MADE, PHOTOGRAPHS[:-1], RELEASES[:-1]}
        or not path.isprintable()
    ):
        return Sort.STRAY
    if name.endswith(".md"):
        return Sort.GUIDE
    return Sort.PICTURE if name.endswith(PICTURES) else Sort.STRAY


def is_leftover(name: str) -> bool:
    """Whether an editor or a system left a file of this name behind."""
    return name.lower().endswith(_LEFTOVERS) or name.lower() in _DROPPINGS


@dataclass(frozen=True, slots=True)
class Picture:
    """A file among the photographs or drawings, whatever it is, by its path in the content folder."""

    path: str
    size: int
    linked: bool


class Tree(Protocol):
    """A content folder, wherever it is kept."""

    def yaml_files(self) -> Iterator[tuple[str, bool]]:
        """Every file that ends like YAML, and every link or pipe of any name, by its path in the folder.

        True for a link, and for whatever else is no plain file (a pipe would be read for ever). Links in
        hidden folders are among them, for MkDocs looks into those.
        """

    def too_long(self) -> Iterator[str]:
        """Every path of more bytes than are taken, cut after the folder where it becomes so.

        Nothing else of the tree tells what lies there.
        """

    def pictures(self) -> Iterator[Picture]:
        """Every file among the photographs and drawings, but for what editors and systems leave behind."""

    def others(self) -> Iterator[str]:
        """Every other plain file, by its path. Hidden ones are passed over: no site shows them."""

    def read(self, relative: str, most: int) -> bytes:
        """The bytes of a file that is no link, but no more than so many."""


@dataclass(frozen=True, slots=True)
class Folder:
    """A content folder on the disk. Links are never followed."""

    path: Path

    def yaml_files(self) -> Iterator[tuple[str, bool]]:
        for relative, entry in self._entries():
            plain = entry.is_file(follow_symlinks=False)
            wanted = is_yaml(entry.name) and not in_hidden_folder(relative)
            if entry.is_symlink() or wanted or not (plain or _passed_over(relative)):
                yield relative, not plain

    def pictures(self) -> Iterator[Picture]:
        for relative, entry in (*self._entries(PHOTOGRAPHS), *self._entries(DRAWINGS)):
            if is_picture(relative):
                size = entry.stat(follow_symlinks=False).st_size
                yield Picture(relative, size, not entry.is_file(follow_symlinks=False))

    def others(self) -> Iterator[str]:
        for relative, entry in self._entries():
            if entry.is_file(follow_symlinks=False) and is_other(relative):
                yield relative

    def too_long(self) -> Iterator[str]:
        for relative, entry in self._walk():
            if is_too_long(relative):
                yield f"{relative}/" if entry.is_dir(follow_symlinks=False) else relative

    def _entries(self, below: str = "") -> Iterator[tuple[str, os.DirEntry[str]]]:
        return ((relative, entry) for relative, entry in self._walk(below) if not is_too_long(relative))

    def _walk(self, below: str = "") -> Iterator[tuple[str, os.DirEntry[str]]]:
        """Whatever is no folder to be entered, by its path. A link to a folder is such a thing."""
        waiting = [below] if (self.path / below).is_dir() else []
        while waiting:
            folder = waiting.pop()
            for entry in os.scandir(self.path / folder):
                relative = f"{folder}{entry.name}"
                if entry.is_dir(follow_symlinks=False) and not is_too_long(relative):
                    waiting.append(f"{relative}/")
                else:
                    yield relative, entry

    def read(self, relative: str, most: int) -> bytes:
        with (self.path / relative).open("rb") as file:
            return file.read(most)


def is_too_long(path: str) -> bool:
    return len(os.fsencode(path)) > MOST_PATH


def _passed_over(path: str) -> bool:
    """Whether nobody opens what lies there, or the photographs and drawings tell it."""
    return sort_of(path) in (Sort.HIDDEN, Sort.LEFTOVER, Sort.PHOTOGRAPH, Sort.DRAWING)


def in_hidden_folder(path: str) -> bool:
    return any(folder.startswith(".") for folder in path.split("/")[:-1])


def is_yaml(name: str) -> bool:
    return name.lower().endswith((".yml", ".yaml"))


def is_other(path: str) -> bool:
    """Whether a file is neither YAML, nor to be shown as a photograph or drawing, nor hidden."""
    return sort_of(path) not in (Sort.RECORD, Sort.PHOTOGRAPH, Sort.DRAWING, Sort.HIDDEN)


def is_picture(path: str) -> bool:
    """Whether a file lies where photographs and drawings do, as one of them or in their place."""
    if is_yaml(path):
        return path.startswith(PHOTOGRAPHS) and not in_hidden_folder(path)
    return sort_of(path) in (Sort.PHOTOGRAPH, Sort.DRAWING)


@dataclass(frozen=True, slots=True)
class RecordFile:
    """A file to be read as a record of `kind`; `path` is how problems and links name it."""

    relative: str
    path: str
    kind: str
    stem: str


def walk(tree: Tree, shown_as: str) -> tuple[tuple[RecordFile, ...], tuple[Problem, ...]]:
    """The record files of a tree in a stable order, and the problems of those that are none."""
    files: list[RecordFile] = []
    problems: list[Problem] = []
    folded: dict[str, str] = {}
    for relative in sorted(set(tree.too_long())):
        read, todo = _("a path of more than {} bytes").format(MOST_PATH), _("use fewer and shorter folders")
        problems.append(Problem.of(FILE_LONG, Finding(Place(f"{shown_as}/{relative}"), read, todo)))
    for relative, linked in sorted(tree.yaml_files()):
        path = f"{shown_as}/{relative}"
        if problem := _problem(relative, linked, path, folded):
            problems.append(problem)
            continue
        stem = relative.rsplit("/", 1)[-1].removesuffix(".yml")
        kind = BY_FOLDER.get(relative.split("/", 1)[0])
        files.append(RecordFile(relative, path, kind.name if kind else stem, stem))
    return tuple(files), tuple(problems)


def _problem(relative: str, linked: bool, path: str, folded: dict[str, str]) -> Problem | None:
    def say(rule: Rule, read: str, todo: str) -> Problem:
        return Problem.of(rule, Finding(Place(path), read, todo))

    if linked:
        return say(FILE_LINK, _("a link, no plain file"), _("put the file itself here"))
    top, __, rest = relative.partition("/")
    single = not rest and relative.removesuffix(".yml") in SINGLE
    if not single and (top not in BY_FOLDER or not rest or not relative.endswith(".yml")):
        folders = ", ".join(f"{name}/" for name in BY_FOLDER)
        todo = _("put records in {folders} with names that end in .yml; {files} stand at the top")
        todo = todo.format(folders=folders, files=", ".join(SINGLE))
        return say(FILE_PLACE, _("a YAML file at {}").format(relative), todo)
    earlier = folded.setdefault(relative.casefold(), relative)
    if earlier != relative:
        read = _("{path} differs from {earlier} only in capitals").format(path=relative, earlier=earlier)
        return say(FILE_CLASH, read, _("rename one of them"))
    if any(map(is_reserved, relative.split("/"))):
        return say(FILE_RESERVED, _("the name {}").format(relative), _("choose another id"))
    return None
