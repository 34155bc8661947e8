"""What a shared link shows of a page: a picture where it has one, by a project's settings."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path
from urllib.parse import quote

from markupsafe import escape
from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.exceptions import PluginError
from PIL import ImageFont

from spanbook.ground.language import gettext as _
from spanbook.ground.pictures import SIZE, Letters, Unwritable
from spanbook.reading import picture_cache
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.site.pictures import PARTS, address_of, has_one, plate_of

_PLAIN = '<meta name="twitter:card" content="summary">'


class PicturesConfig(Config):
    """`pages`: which have a picture to be shared by, `all`, those `without-parts`, or `none`. `font`: a file
    with the letters of the titles, since those at hand are a typewriter's (English) only."""

    pages = config_options.Choice(("all", "without-parts", "none"), default="all")
    font = config_options.Optional(config_options.File(exists=True))

    def letters(self) -> Letters:
        """Raises PluginError for a file that is no font."""
        if self.font is None:
            return Letters()
        try:
            ImageFont.truetype(self.font)
        except OSError as failure:
            raise PluginError(
                _("pictures: font: {font} is no font ({failure})").format(font=self.font, failure=failure)
            ) from failure
        return Letters(Path(self.font))


def pictures(site: Site, pages: Iterable[SitePage], name: str, settings: PicturesConfig) -> dict[str, bytes]:
    """The picture of every page that has one, by its address; none of a title that cannot be written."""
    made: dict[str, bytes] = {}
    if settings.pages == "none":
        return made
    letters = settings.letters()
    for page in filter(has_one, pages):
        if settings.pages == "all" or page.template != PARTS:
            try:
                made[address_of(page)] = picture_cache.picture(plate_of(site, page, name), letters)
            except Unwritable:
                continue
    picture_cache.trim()
    return made


def tags(page: SitePage, site_url: str | None, made: dict[str, bytes]) -> str:
    """What a page's head says of it. A picture needs an address of its own on the web."""
    address = address_of(page)
    if not site_url or address not in made:
        return _PLAIN
    wide, high = SIZE
    return "\n".join(
        (
            f'<meta property="og:image" content="{escape(site_url.rstrip("/"))}/{quote(address)}">',
            f'<meta property="og:image:width" content="{wide}">',
            f'<meta property="og:image:height" content="{high}">',
            f'<meta property="og:image:alt" content="{escape(page.summary)}">',
            '<meta name="twitter:card" content="summary_large_image">',
        )
    )
