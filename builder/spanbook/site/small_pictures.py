"""The small picture that stands for an assembly: of its own first picture, else of one of a teardown."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from spanbook.reading.records import Assembly, Figure
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.site.drawings import Album
from spanbook.site.photographs import Shelf, Shown


def sizes_of(figure: Figure, shelf: Shelf, album: Album) -> Sequence[Shown]:
    """A picture in its sizes, the smallest first; none of one that was not made."""
    drawn = album.get(figure.file)
    return drawn.rasters if drawn else shelf.get(figure.file, ())


def figures_of(register: Register, assembly: Assembly) -> Iterator[Figure]:
    """The pictures of an assembly: its own, then those of teardowns."""
    yield from assembly.figures
    for teardown in register.found.get(assembly.id, ()):
        for find in teardown.found:
            if find.assembly == assembly.id:
                yield from find.photographs


def small_of(register: Register, assembly: Assembly, shelf: Shelf, album: Album) -> str:
    """The address of the small picture of an assembly; empty where it has none."""
    made = (sizes_of(figure, shelf, album) for figure in figures_of(register, assembly))
    return next((sizes[0].address for sizes in made if sizes), "")


def pictures_at(register: Register, shelf: Shelf, album: Album) -> Mapping[str, Mapping[str, str]]:
    """By position the small pictures of what may be there, by the addresses of pages."""
    made: dict[str, dict[str, str]] = {}
    for path, held in register.at_position.items():
        shown = ((one, small_of(register, one, shelf, album)) for one in held)
        if here := {addresses.of_record(one): small for one, small in shown if small}:
            made[path] = here
    return made
