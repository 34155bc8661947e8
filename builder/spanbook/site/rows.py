"""The lines of a list, and a list too long for a telephone in pieces."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.site.page import Link
from spanbook.site.thumbnails import Thumbnail


@dataclass(frozen=True, slots=True)
class Row:
    """`anchors` are those of what stands on the piece that the row leads to."""

    link: Link
    cells: tuple[str, ...]
    picture: Thumbnail | None = None
    anchors: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RowsView:
    """A table of rows under its columns; `title` is what it is called for those who do not see it."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[Row, ...]


def piece_address(page: str, piece: int | str) -> str:
    """Where a piece of a page stands; no record, and no part number, can stand there: see PartKey.slug."""
    return f"{page}~/{piece}/"


def size(row: Row) -> int:
    """About how many bytes a row takes."""
    texts = (row.link.text, row.link.address, *row.cells)
    return 100 + 30 * len(row.cells) + sum(map(len, texts)) + (150 if row.picture else 0)
