"""A page of the site before it is HTML: its address, its one-line answer, its view and its template."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from spanbook.reading.records import Origin
from spanbook.site import html


@dataclass(frozen=True, slots=True)
class Link:
    text: str
    address: str


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
    def root(self) -> str:
        """What leads from this page to the site's root."""
        return "../" * self.address.count("/")

    def to_html(self, edit_url: str | None, canonical: str | None, help_address: str | None) -> str:
        """The inside of the page. `edit_url` leads to the record at the forge, where there is one."""
        return html.render(
            self.template,
            page=self,
            view=self.view,
            root=self.root,
            edit_url=edit_url,
            canonical=canonical,
            help_address=help_address,
        )
