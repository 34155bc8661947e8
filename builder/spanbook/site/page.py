"""A page of the site before it is HTML: its address, its one-line answer, its view and its template."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from markupsafe import Markup

from spanbook.reading.kinds import KINDS
from spanbook.reading.records import PartRecord, Record
from spanbook.reading.titled import Titled, other_titles
from spanbook.site import addresses, html
from spanbook.site.data import DataShown
from spanbook.site.forms.forge import Forge

_OF_PLATES = {"views/machine.html", "views/series.html", "views/unit.html"}


@dataclass(frozen=True, slots=True)
class Link:
    text: str
    address: str


@dataclass(frozen=True, slots=True)
class Around:
    """What a page takes from the site around it, each where there is one.

    `forge` is where records are proposed, `schemas` the address under which their schemas are published.
    `edit_url` leads to the record at the forge, `canonical` is the permanent address, `help_address` the
    page for a newcomer, `release` names the state of the records and `day` has its day, `name` the site,
    `data` is what it lays down for programs. `contact` is an address for links, `mailto:` too.
    """

    edit_url: str | None = None
    canonical: str | None = None
    help_address: str | None = None
    release: str = ""
    forge: Forge = Forge()  # noqa: RUF009 - it is frozen
    schemas: str = ""
    name: str = ""
    data: DataShown = DataShown()  # noqa: RUF009 - it is frozen
    contact: str = ""
    day: str = ""


@dataclass(frozen=True, slots=True)
class SitePage:
    """`view` is plain data for `template`; `record` is what the page may be corrected in.

    `gone` are statements that stood on it once, each by its anchor with the reason; `formerly` gives the
    anchors that statements on it had before, by those of today.
    `position` is the path of the one position that it is about: what a reader's own machine has there is told
    with it. `of_part` is a part's own record, on the page of its number.
    `piece_of` is where a piece of a long page is told of for good: it is led to from there, wherever it is.
    `other_titles` are a position's; a record has its own.
    `crumbs` lead from the kind's index down to the page; `summary` is what a pasted link shows.
    """

    address: str
    title: str
    summary: str
    sort: str
    crumbs: tuple[Link, ...]
    template: str
    view: Any
    record: Record | None = None
    gone: tuple[tuple[str, Markup], ...] = ()
    formerly: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    position: str | None = None
    of_part: PartRecord | None = None
    piece_of: str = ""
    other_titles: tuple[str, ...] = ()

    @property
    def correct(self) -> str | None:
        """The form filled with the record that the page is about, where its kind has one."""
        if self.record is None or not KINDS[self.record.kind].form:
            return None
        return addresses.to_correct(self.record.kind, self.record.id)

    @property
    def own_record(self) -> Record | None:
        """The record that the page is about, and no other."""
        record = self.record
        if record is None or not KINDS[record.kind].paged:
            return self.of_part
        return record if addresses.of_record(record) == self.address else self.of_part

    def permanent(self, around: Around) -> str | None:
        """The address that it is told by to others, where the site says where it is."""
        if around.canonical is None or not self.piece_of:
            return around.canonical
        return f"{around.canonical.removesuffix(self.address)}{self.piece_of}"

    @property
    def also_called(self) -> tuple[str, ...]:
        """What it is about is called in other languages."""
        own = self.own_record
        return self.other_titles or (tuple(other_titles(own)) if isinstance(own, Titled) else ())

    @property
    def by_number(self) -> bool:
        """Whether it is about what bears a maker's plate: it is then headed like one."""
        return self.template in _OF_PLATES

    @property
    def root(self) -> str:
        """What leads from this page to the site's root."""
        return "../" * self.address.count("/")

    def to_html(self, around: Around) -> str:
        """The inside of the page."""
        return html.render(self.template, page=self, view=self.view, root=self.root, around=around)
