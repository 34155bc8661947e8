"""Photographs on the site: made anew in several widths, each at an address of its own."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path

from spanbook.photographs import versions
from spanbook.reading.files import PHOTOGRAPHS
from spanbook.reading.records import Photograph
from spanbook.register import Register


@dataclass(frozen=True, slots=True)
class Shown:
    """One width of a photograph: where it is and how large."""

    address: str
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class PhotographView:
    """The widest version stands for it; `sources` lets a browser take a smaller one."""

    shows: str
    licence: str | None
    widest: Shown
    sources: tuple[Shown, ...]


Shelf = Mapping[str, tuple[Shown, ...]]


def develop(register: Register, content: Path) -> tuple[dict[str, tuple[Shown, ...]], dict[str, bytes]]:
    """Every photograph that a record shows: its versions, and their bytes by address.

    The records have been checked: every file is there and sound.
    """
    shelf: dict[str, tuple[Shown, ...]] = {}
    files: dict[str, bytes] = {}
    for file in sorted({photograph.file for photograph in _all(register)}):
        made = []
        for version in versions((content / PHOTOGRAPHS / file).read_bytes()):
            # The whole name stays in the address: two files may differ only in how they end.
            address = f"{PHOTOGRAPHS}{file.replace('.', '-')}-{version.width}.webp"
            files[address] = version.data
            made.append(Shown(address, version.width, version.height))
        shelf[file] = tuple(made)
    return shelf, files


def views(shelf: Shelf, photographs: tuple[Photograph, ...]) -> Iterator[PhotographView]:
    """The photographs that were developed; a page made without them goes without."""
    for photograph in photographs:
        if shown := shelf.get(photograph.file):
            yield PhotographView(photograph.shows, photograph.licence, shown[-1], shown)


def _all(register: Register) -> Iterator[Photograph]:
    for teardown in register.teardowns.values():
        for find in teardown.found:
            yield from find.photographs
