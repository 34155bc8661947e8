"""What a site lays down for other programs, and what its files say of themselves, by a project's settings."""

from __future__ import annotations

import re
import sqlite3
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import Any

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError

from spanbook.answers.answers import Answers
from spanbook.ground.language import gettext as _
from spanbook.ground.licences import Licence, licence_of
from spanbook.ground.table import Table
from spanbook.outputs import data
from spanbook.outputs.data.about import About
from spanbook.reading.git import last_changed
from spanbook.reading.plain import Said
from spanbook.reading.records import Record
from spanbook.reading.releases import Release
from spanbook.register.credits import credits_of
from spanbook.site import feed, opensearch, record_files
from spanbook.site.addresses import DATA, STATE
from spanbook.site.data import DataShown, release_of, shown
from spanbook.site.page import Around
from spanbook.site.tables import tables as every_table
from spanbook.wording import releases as words
from spanbook.wording.data import credit_words


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


def about_of(config: MkDocsConfig, licence: Licence | None, release: str, day: date | None) -> About:
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


@dataclass(frozen=True, slots=True)
class Laid:
    """`state` is that of the records by their digest, `release` what it is called, `files` are by their
    addresses, `shown` is what the page of the data tells of them."""

    state: str
    release: str
    files: dict[str, bytes]
    shown: DataShown


def lay(
    answers: Answers,
    config: MkDocsConfig,
    licence: Licence | None,
    release: str | None,
    releases: Sequence[Release],
    wanted: ExportsConfig,
    said: Mapping[Record, Said],
) -> Laid:
    """The files of data of a site, those that are wanted, and what this state of the records is called."""

    def values(record: Record) -> dict[str, Any]:
        return said[record].values

    made = every_table(answers, values)
    state = release_of(made)
    named = release or name_of(state, releases)
    named_by = tuple((one.handle, credit_words(one)) for one in credits_of(answers.register))
    laid, tell = {}, DataShown(licence)
    if wanted.tables:
        about = about_of(config, licence, named, last_changed(Path(config.docs_dir)))
        laid = files(made, about, [one.values for one in said.values()])
        tell = shown(licence, made, laid)
    tell = replace(tell, beside=wanted.records, credits=named_by)
    addressed = {f"{DATA}{name}": one for name, one in laid.items()}
    if wanted.records:
        addressed |= record_files.files(answers, values, licence)
    return Laid(state, named, addressed, tell)


def name_of(state: str, releases: Sequence[Release]) -> str:
    """The release that a state of the records is; its own name where it is none."""
    return next((words.named(one) for one in releases if one.state == state), state)


def for_programs(
    site: str | None, around: Around, releases: Sequence[Release], state: str, records: int
) -> dict[str, bytes]:
    """Which state a site shows; where it has an address, its box for browsers and the feed of releases."""
    made = {STATE: feed.state(around, releases, state, records)}
    if site:
        address = f"{site.rstrip('/')}/"
        made |= opensearch.files(around.name, address)
        if releases:
            made[feed.FEED] = feed.feed(address, around, releases)
    return made


def files(tables: Sequence[Table], about: About, records: Sequence[data.Record]) -> dict[str, bytes]:
    """Every file of data by its name. Raises PluginError where SQLite cannot make a full-text index."""
    try:
        return data.every_file(tables, about, records)
    except sqlite3.OperationalError as failure:
        raise PluginError(
            _(
                "{}: the SQLite of this Python makes no full-text index (FTS5); use another Python, "
                "or set exports: {{tables: false}}"
            ).format(failure)
        ) from failure
