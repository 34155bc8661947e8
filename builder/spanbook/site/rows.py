"""The lines of a list, and a list too long for a telephone in pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from spanbook.ground.punctuation import labelled
from spanbook.site import cutting
from spanbook.site.page import Link, SitePage
from spanbook.site.thumbnails import Thumbnail
from spanbook.wording import lists
from spanbook.wording.lists import piece_words


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


@dataclass(frozen=True, slots=True)
class Group:
    """`anchor` and `heading` are empty where there is only one group."""

    anchor: str
    heading: Link | None
    rows: tuple[Row, ...]


@dataclass(frozen=True, slots=True)
class IndexView:
    lead: str
    columns: tuple[str, ...]
    groups: tuple[Group, ...]


def in_pieces(page: SitePage) -> Iterator[SitePage]:
    """The page; a list too long for a telephone in pieces instead, with links to them in its place.

    A list of several groups has a piece for each of them, one of a single group as many as it takes. The
    addresses of pieces are not promised: what stands on which changes as records come.
    """
    view: IndexView = page.view
    if sum(size(row) for group in view.groups for row in group.rows) <= cutting.BOUND:
        yield page
    elif len(view.groups) > 1:
        yield from _by_group(page)
    else:
        yield from _by_rows(page)


def table_in_pieces(page: SitePage, table: RowsView) -> tuple[RowsView, list[SitePage]]:
    """A table on a page; one too long for a telephone as what leads to pieces of it, and those."""
    view = IndexView("", table.columns, (Group("", None, table.rows),))
    *pieces, whole = in_pieces(replace(page, template="views/index.html", view=view, piece_of=page.address))
    return replace(table, columns=whole.view.columns, rows=whole.view.groups[0].rows), pieces


def _by_group(page: SitePage) -> Iterator[SitePage]:
    """A piece for each group, which may be too long itself."""
    view: IndexView = page.view
    leading: list[Row] = []
    for group in view.groups:
        words = group.heading.text if group.heading else group.rows[0].link.text
        link = Link(words, piece_address(page.address, group.anchor))
        leading.append(Row(link, (str(len(group.rows)),), anchors=(group.anchor,)))
        yield from in_pieces(_piece(page, link, group))
    yield replace(page, view=IndexView(view.lead, lists.piece_columns(), (Group("", None, tuple(leading)),)))


def _by_rows(page: SitePage) -> Iterator[SitePage]:
    view: IndexView = page.view
    group = view.groups[0]
    leading: list[Row] = []
    for rows in cutting.lasting_runs(group.rows, size, lambda row: row.link.address):
        words = piece_words(rows[0].link.text, rows[-1].link.text)
        link = Link(words, piece_address(page.address, len(leading) + 1))
        leading.append(Row(link, (str(len(rows)),)))
        yield _piece(page, link, replace(group, rows=rows))
    yield replace(
        page, view=IndexView(view.lead, lists.piece_columns(), (replace(group, rows=tuple(leading)),))
    )


def _piece(page: SitePage, link: Link, group: Group) -> SitePage:
    view: IndexView = page.view
    return replace(
        page,
        address=link.address,
        title=labelled(page.title, link.text),
        crumbs=(*page.crumbs, Link(page.title, page.address)),
        view=replace(view, groups=(group,)),
    )
