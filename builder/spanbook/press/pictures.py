"""What a shared link shows of a page: a picture where it has one."""

from __future__ import annotations

from dataclasses import dataclass
from urllib.parse import quote

from markupsafe import escape

from spanbook.ground.pictures import SIZE, Letters, Unwritable
from spanbook.reading import picture_cache
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.site.pictures import PARTS, address_of, has_one, plate_of

_PLAIN = '<meta name="twitter:card" content="summary">'


@dataclass(frozen=True, slots=True)
class Pictured:
    """On them stands the `name` of the site in some letters; `parts` and `others`: which pages have one."""

    name: str
    letters: Letters = Letters()  # noqa: RUF009 - it is frozen
    parts: bool = True
    others: bool = True

    def of(self, site: Site, page: SitePage) -> bytes | None:
        """The picture of a page; none of a title that cannot be written."""
        if not has_one(page) or not (self.parts if page.template == PARTS else self.others):
            return None
        try:
            return picture_cache.picture(plate_of(site, page, self.name), self.letters)
        except Unwritable:
            return None


def tags(page: SitePage, base: str | None, pictured: bool) -> str:
    """What a page's head says of it. A picture needs an address of its own on the web."""
    if not base or not pictured:
        return _PLAIN
    wide, high = SIZE
    return "\n".join(
        (
            f'<meta property="og:image" content="{escape(base)}{quote(address_of(page))}">',
            f'<meta property="og:image:width" content="{wide}">',
            f'<meta property="og:image:height" content="{high}">',
            f'<meta property="og:image:alt" content="{escape(page.summary)}">',
            '<meta name="twitter:card" content="summary_large_image">',
        )
    )
