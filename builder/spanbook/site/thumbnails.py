"""Small pictures that stand beside the names of assemblies, and show where in one a part is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from itertools import islice

from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Assembly, Figure, Machine, Point, Sign
from spanbook.register.model import Part
from spanbook.site import addresses, small_pictures
from spanbook.site.common import Site
from spanbook.site.page import Link
from spanbook.site.photographs import Shown
from spanbook.site.small_pictures import figures_of, sizes_of
from spanbook.wording.signs import shown_words

MOST_PLACES = 6  # figures on a part's page; all that have it are listed there anyway


@dataclass(frozen=True, slots=True)
class Thumbnail:
    """A picture in a small and a middling size; `lines` where it is line art, to be turned in the dark."""

    small: Shown
    middle: Shown
    lines: bool
    shows: str


@dataclass(frozen=True, slots=True)
class Place:
    """A figure of an assembly with rings where a part is, in hundredths of its width and height."""

    picture: Thumbnail
    rings: tuple[tuple[float, float], ...]
    link: Link


def thumbnail(site: Site, figure: Figure) -> Thumbnail | None:
    """None for a picture that was not made."""
    sizes = sizes_of(figure, site.shelf, site.album)
    if not sizes:
        return None
    middle = next((one for one in sizes if max(one.width, one.height) >= 480), sizes[-1])
    return Thumbnail(sizes[0], middle, figure.file in site.album, figure.shows)


def of_assembly(site: Site, assembly: Assembly) -> Thumbnail | None:
    """Its first picture: its own, else one of a teardown."""
    shown = (thumbnail(site, figure) for figure in figures_of(site.register, assembly))
    return next(filter(None, shown), None)


def of_machine(site: Site, machine: Machine) -> Thumbnail | None:
    """The first of its pictures that was made."""
    return next(filter(None, (thumbnail(site, figure) for figure in machine.figures)), None)


def of_pages(site: Site) -> dict[str, str]:
    """The address of the small picture of every assembly that has one, by the address of its page."""
    made = ((one, small_of(site, one)) for one in site.register.assemblies.values())
    return {addresses.of_record(one): small for one, small in made if small}


def small_of(site: Site, assembly: Assembly) -> str:
    """The address of the small picture of an assembly; empty where it has none."""
    return small_pictures.small_of(site.register, assembly, site.shelf, site.album)


@dataclass(frozen=True, slots=True)
class Seen:
    """What one thing shows of a sign, with the spot ringed."""

    place: Place
    answer: str


@dataclass(frozen=True, slots=True)
class Apart:
    """A sign by which things are told apart, and the pictures in which it is pointed out side by side."""

    asks: str
    seen: tuple[Seen, ...]


def told_apart(site: Site, assemblies: Iterable[Assembly]) -> tuple[Apart, ...]:
    """Every sign that is pointed out in pictures of two or more of them, and answered in two ways or more."""
    here = tuple(assemblies)
    found = []
    for sign in site.register.signs.values():
        seen = tuple(one for assembly in here for one in _seen(site, assembly, sign))
        if len({one.answer for one in seen}) > 1:
            found.append(Apart(sign.asks, seen))
    return tuple(found)


def _seen(site: Site, assembly: Assembly, sign: Sign) -> Iterator[Seen]:
    """The first picture in which a sign of an assembly is pointed out."""
    shown = next((one for one in assembly.signs if one.sign == sign.id), None)
    if shown:
        spots = _ringed(site, assembly, lambda point: point.sign == sign.id)
        yield from (Seen(place, shown_words(shown)) for place in islice(spots, 1))


def places(site: Site, part: Part) -> tuple[Place, ...]:
    """Where the assemblies that have a part show it, the first few."""
    found: list[Place] = []
    for assembly in dict.fromkeys(use.assembly for use in part.uses):
        found.extend(_ringed(site, assembly, partial(_names, site, assembly, part.key)))
    return tuple(found[:MOST_PLACES])


def _names(site: Site, assembly: Assembly, key: PartKey, point: Point) -> bool:
    return point.part is not None and site.register.key_of(assembly, point.part) == key


def _ringed(site: Site, assembly: Assembly, wanted: Callable[[Point], bool]) -> Iterator[Place]:
    """The figures of an assembly that point out what is wanted."""
    made = ((figure, thumbnail(site, figure)) for figure in assembly.figures)
    # Figures are counted on the page as they are shown there.
    for n, (figure, picture) in enumerate(((f, p) for f, p in made if p), start=1):
        rings = tuple((point.x / 10, point.y / 10) for point in figure.points if wanted(point))
        if rings:
            yield Place(picture, rings, Link(assembly.title, f"{addresses.of_record(assembly)}#figure-{n}"))
