"""Which pages have a picture to be shared by, by a project's settings."""

from __future__ import annotations

from pathlib import Path

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.exceptions import PluginError
from PIL import ImageFont

from spanbook.ground.language import gettext as _
from spanbook.ground.pictures import Letters
from spanbook.press.pictures import Pictured


class PicturesConfig(Config):
    """`pages`: which have a picture to be shared by, `all`, those `without-parts`, or `none`. `font`: a file
    with the letters of the titles, since those at hand are a typewriter's (English) only."""

    pages = config_options.Choice(("all", "without-parts", "none"), default="all")
    font = config_options.Optional(config_options.File(exists=True))

    def pictured(self, name: str) -> Pictured:
        """For a site of this name. Raises PluginError for a file that is no font."""
        wanted = self.pages != "none"
        letters = self._letters() if wanted else Letters()
        return Pictured(name, letters, parts=self.pages == "all", others=wanted)

    def _letters(self) -> Letters:
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
