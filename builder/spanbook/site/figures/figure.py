"""A drawing or photograph of a record as a page shows it: the picture, its pins, and the list of them."""

from __future__ import annotations

from collections.abc import Container, Iterable, Iterator
from dataclasses import dataclass

from spanbook.ground.part_numbers import PartKey
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.records import Figure, Record
from spanbook.site.common import Site, part_link
from spanbook.site.drawings import Drawn
from spanbook.site.figures.pins import Sheet, Spot, sheet
from spanbook.site.page import Link
from spanbook.site.photographs import Shown
from spanbook.wording.figures import credit_words, renewed, sign_there


@dataclass(frozen=True, slots=True)
class Item:
    """A line of the list beside a figure; `renewed` where what is there never goes back."""

    n: int
    link: Link | None
    words: str
    renewed: bool

    @property
    def called(self) -> str:
        """What a pin is called by whoever cannot see where it points."""
        number = f"{self.link.text} " if self.link else ""
        return labelled(str(self.n), f"{number}{self.words}")


@dataclass(frozen=True, slots=True)
class FigureView:
    """It is either `drawn` or has `photographs`, the narrowest first; `n` counts on the page.

    `of` is whose teardown it is from.
    """

    n: int
    shows: str
    credit: str
    of: Link | None
    drawn: Drawn | None
    photographs: tuple[Shown, ...]
    sheet: Sheet
    items: tuple[Item, ...]

    @property
    def remark(self) -> str:
        return renewed() if any(item.renewed for item in self.items) else ""

    @property
    def enlarged(self) -> str:
        """Where the picture is alone and as large as it is."""
        return self.drawn.address if self.drawn else self.photographs[-1].address

    @property
    def in_page(self) -> Shown:
        """The photograph that stands in the page: no wider than is needed there."""
        return next((one for one in self.photographs if one.width >= 960), self.photographs[-1])


# A figure, the record that it stands in, and whose teardown it is from.
Stands = tuple[Figure, Record, Link | None]


def figures(
    site: Site, shown: Iterable[Stands], numbers: Iterator[int], renewed: Container[PartKey] = ()
) -> Iterator[FigureView]:
    """Those whose pictures were made, each with the next of the numbers on its page."""
    for figure, record, of in shown:
        drawn, photographs = site.album.get(figure.file), site.shelf.get(figure.file, ())
        if drawn or photographs:
            yield _view(site, record, figure, of, next(numbers), drawn, photographs, renewed)


def _view(
    site: Site,
    record: Record,
    figure: Figure,
    of: Link | None,
    n: int,
    drawn: Drawn | None,
    photographs: tuple[Shown, ...],
    renewed: Container[PartKey],
) -> FigureView:
    items, spots = _pointed_out(site, record, figure, renewed)
    picture = drawn or photographs[-1]
    return FigureView(
        n,
        figure.shows,
        credit_words(figure, record, drawn=drawn is not None),
        of,
        drawn,
        photographs,
        sheet(picture.width, picture.height, spots),
        items,
    )


def _pointed_out(
    site: Site, record: Record, figure: Figure, renewed: Container[PartKey]
) -> tuple[tuple[Item, ...], list[Spot]]:
    """The list in the order in which things are pointed out, a part that is there twice once."""
    lines: dict[tuple[PartKey | None, str], Item] = {}
    spots = []
    for point in figure.points:
        key = site.register.key_of(record, point.part) if point.part else None
        sign = site.register.signs.get(point.sign or "")
        told = sign_there(sign, record) if sign else ""
        named = key, f"{told} {point.shows or ''}"
        if named not in lines:
            part = site.register.parts[key] if key else None
            words = parted(*filter(None, (part.name if part else "", told, point.shows)))
            link = part_link(part, point.number) if part else None
            lines[named] = Item(len(lines) + 1, link, words, key in renewed if key else False)
        spots.append(Spot(lines[named].n, point.x / 1000, point.y / 1000))
    return tuple(lines.values()), spots
