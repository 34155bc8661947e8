"""Photographs on the site: made anew in several widths, each at an address of its own."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from spanbook.reading.files import DRAWING, PHOTOGRAPHS
from spanbook.reading.image_cache import each, own_form, prints, trim
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Shown:
    """One width of a picture: where it is and how large."""

    address: str
    width: int
    height: int

    @property
    def half(self) -> tuple[int, int]:
        """As large as it stands beside words: sharp where a screen has two points for each."""
        return max(1, self.width // 2), max(1, self.height // 2)


Shelf = Mapping[str, tuple[Shown, ...]]


def develop(register: Register, content: Path) -> tuple[dict[str, tuple[Shown, ...]], dict[str, Path]]:
    """Every photograph that a record shows: its versions, and their files by address.

    The records have been checked: every file is there and sound. Raises OSError when nothing can be kept,
    and Refused for a file that was changed since.
    """
    shelf, files = developed(sorted(photographs_of(register.records)), content)
    trim()
    return shelf, files


def photographs_of(records: Iterable[Record]) -> set[str]:
    """The names of the photographs that records show."""
    shown = {leaf.value for record in records for leaf in walk(record, Role.PICTURE)}
    return {name for name in shown if not name.endswith(DRAWING)}


def developed(names: Sequence[str], content: Path) -> tuple[dict[str, tuple[Shown, ...]], dict[str, Path]]:
    """The versions of photographs by their names, and their files by address. Raises as `develop`."""
    shelf: dict[str, tuple[Shown, ...]] = {}
    files: dict[str, Path] = {}
    made = each(lambda name: prints((content / PHOTOGRAPHS / name).read_bytes()), names)
    for name, widths in zip(names, made, strict=True):
        # The whole name stays in the address: two files may differ only in how they end.
        stem = f"{PHOTOGRAPHS}{name.replace('.', '-')}"
        shelf[name] = tuple(Shown(f"{stem}-{p.width}.webp", p.width, p.height) for p in widths)
        files |= {f"{stem}-{p.width}.webp": p.file for p in widths}
    return shelf, files


def develop_guides(content: Path, names: Iterable[str]) -> dict[str, Path]:
    """The pictures that guides show, made anew, by the paths that they keep. Raises as `develop`."""
    every = tuple(names)
    made = each(lambda name: own_form((content / name).read_bytes()), every)
    return dict(zip(every, made, strict=True))
