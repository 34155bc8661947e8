"""What the files of data of a site say of themselves, by a project's settings."""

from __future__ import annotations

import re
import sqlite3
import unicodedata
from datetime import date

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from spanbook.ground.language import gettext as _
from spanbook.ground.licences import Licence, licence_of
from spanbook.outputs.data.about import About


class ExportsConfig(Config):
    """`tables`: whether the site has its tables as files. `records`: whether pages have their records beside
    them as JSON."""

    tables = config_options.Type(bool, default=True)
    records = config_options.Type(bool, default=True)


def licence_named(typed: str | None) -> Licence | None:
    """The licence of the records as a whole. Raises PluginError for what is no SPDX identifier."""
    if typed is None:
        return None
    found = licence_of(typed)
    if found is None:
        raise PluginError(
            _("licence: read {}; it is an SPDX identifier, such as CC0-1.0 or CC-BY-4.0").format(typed)
        )
    return found


def about_of(config: MkDocsConfig, licence: Licence | None, day: date | None, release: str = "") -> About:
    """What every file of data says of itself."""
    site = config.site_url
    return About(
        name=slug(config.site_name),
        title=config.site_name,
        description=config.site_description,
        address=f"{site.rstrip('/')}/" if site else None,
        licence=licence,
        release=release,
        day=day,
    )


def slug(name: str) -> str:
    """A name in small letters, digits and hyphens, as a Data Package wants it."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return re.sub("[^a-z0-9]+", "-", plain).strip("-") or "records"


def no_index(failure: sqlite3.OperationalError) -> PluginError:
    """What to do where SQLite cannot make a full-text index."""
    return PluginError(
        _(
            "{}: the SQLite of this Python makes no full-text index (FTS5); use another Python, "
            "or set exports: {{tables: false}}"
        ).format(failure)
    )
