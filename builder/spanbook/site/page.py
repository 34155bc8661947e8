"""A page of the site before it is HTML: its address, its one-line answer, its view and its template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from spanbook.reading.nodes import text_at
from spanbook.reading.records import Origin
from spanbook.site import addresses, html
from spanbook.site.forms.forge import Forge


@dataclass(frozen=True, slots=True)
class Link:
    text: str
    address: str


@dataclass(frozen=True, slots=True)
class Around:
    """What a page takes from the site around it, each where there is one.

    `forge` is where records are proposed, `schemas` the address under which their schemas are published.
    `edit_url` leads to the record at the forge, `canonical` is the permanent address, `help_address` the
    page for a newcomer, `release` names the state of the records.
    """

    edit_url: str | None = None
    canonical: str | None = None
    help_address: str | None = None
    release: str = ""
    forge: Forge = Forge()  # noqa: RUF009 - it is frozen
    schemas: str = ""


@dataclass(frozen=True, slots=True)
class SitePage:
    """`view` is plain data for `template`; `origin` is the record that the page may be corrected in.

    `crumbs` lead from the kind's index down to the page; `summary` is what a pasted link shows.
    """

    address: str
    title: str
    summary: str
    sort: str
    crumbs: tuple[Link, ...]
    template: str
    view: Any
    origin: Origin | None = None

    @property
    def correct(self) -> str | None:
        """The form filled with the record that the page is about, where its kind has one."""
        if self.origin is None:
            return None
        kind, id_ = (text_at(self.origin.node, key) for key in ("kind", "id"))
        return addresses.to_correct(kind, id_) if kind in addresses.FORM_KINDS else None

    @property
    def root(self) -> str:
        """What leads from this page to the site's root."""
        return "../" * self.address.count("/")

    def to_html(self, around: Around) -> str:
        """The inside of the page."""
        return html.render(self.template, page=self, view=self.view, root=self.root, around=around)
