"""Drawings on the site: their lines drawn anew, in the page and as a file of their own to be enlarged."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from pathlib import Path

from spanbook.ground.drawings import write
from spanbook.ground.drawings.drawing import Drawing
from spanbook.ground.drawings.raster import size_at
from spanbook.ground.drawings.read import read
from spanbook.reading import drawing_cache
from spanbook.reading.files import DRAWING, DRAWINGS
from spanbook.reading.records import Record
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register
from spanbook.site import html
from spanbook.site.photographs import Shown

SIDES = (160, 480)  # pixels of the longer side of a small picture


@dataclass(frozen=True, slots=True)
class Line:
    """The lines of one pen, or one shape: the name of the pen, whether it is filled evenodd, path data."""

    pen: str
    odd: bool
    d: str


@dataclass(frozen=True, slots=True)
class Drawn:
    """A drawing on its sheet, and where its file is; `rasters` are small pictures, the smallest first."""

    address: str
    width: int
    height: int
    lines: tuple[Line, ...]
    rasters: tuple[Shown, ...]


Album = Mapping[str, Drawn]


def draw(register: Register, content: Path) -> tuple[dict[str, Drawn], dict[str, bytes]]:
    """Every drawing that a record shows, and the files of the site by address.

    The records have been checked. Raises OSError, and Refused for a file that was changed since.
    """
    album, files = drawn(sorted(drawings_of(register.records)), content)
    drawing_cache.trim()
    return album, files


def drawings_of(records: Iterable[Record]) -> set[str]:
    """The names of the drawings that records show."""
    shown = {leaf.value for record in records for leaf in walk(record, Role.PICTURE)}
    return {name for name in shown if name.endswith(DRAWING)}


def drawn(names: Iterable[str], content: Path) -> tuple[dict[str, Drawn], dict[str, bytes]]:
    """Drawings by their names, and their files by address. Raises as `draw`."""
    album, files = {}, {}
    for name in names:
        data = (content / DRAWINGS / name).read_bytes()
        made = album[name] = lines_of(read(data), name)
        files[made.address] = file_of(made)
        for small, side in zip(made.rasters, SIDES, strict=True):
            files[small.address] = drawing_cache.small(data, side)
    return album, files


def lines_of(drawing: Drawing, name: str) -> Drawn:
    """A drawing as the page shows it, by the name of its file."""
    lines = tuple(Line(pen, odd, d) for pen, odd, d in write.paths(drawing))
    stem = f"{DRAWINGS}{name.replace('.', '-')}"
    rasters = tuple(Shown(f"{stem}-{side}.webp", *size_at(drawing, side)) for side in SIDES)
    return Drawn(f"{DRAWINGS}{name}", drawing.width, drawing.height, lines, rasters)


def file_of(drawn: Drawn) -> bytes:
    """Dark on light, as a file that holds lines and nothing else."""
    return html.render("figures/drawing.svg", drawn=drawn).encode()
