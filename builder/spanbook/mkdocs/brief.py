"""What a build has found out before it makes a page."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.structure.files import Files

from spanbook.answers.by_words import Document
from spanbook.mkdocs.colophon import Colophon
from spanbook.mkdocs.data import about_of
from spanbook.mkdocs.guides import guides
from spanbook.mkdocs.options import SpanbookConfig
from spanbook.press.data import Wanted
from spanbook.press.pictures import Pictured
from spanbook.reading.git import last_changed
from spanbook.site.addresses import SCHEMAS
from spanbook.site.along import manifest
from spanbook.site.common import Site
from spanbook.site.forms.forge import forge_of
from spanbook.site.page import Around
from spanbook.wording import building as words


@dataclass(frozen=True, slots=True)
class Brief:
    """`guides` are found by their words, `around` stands around every page, `base` is the address of the site
    with a slash at its end. `beside` are files that are not made from records, each by its path with what
    reads it."""

    site: Site
    guides: tuple[Document, ...]
    around: Around
    wanted: Wanted
    pictured: Pictured
    base: str | None
    beside: tuple[tuple[str, Callable[[], bytes]], ...]


def brief_of(
    config: MkDocsConfig,
    own: SpanbookConfig,
    site: Site,
    files: Files,
    foot: Colophon,
    given: Mapping[str, bytes],
    pictures: Mapping[str, Path],
) -> Brief:
    """By the settings of MkDocs and our own; `given` and `pictures` are what is made besides, by paths.

    Raises PluginError for a setting that leads nowhere.
    """
    wanted = Wanted(
        about_of(config, foot.licence, last_changed(Path(config.docs_dir))),
        tables=own.exports.tables,
        records=own.exports.records,
        release=own.release,
    )
    around = Around(
        help_address=_help_address(own, files),
        forge=forge_of(config.repo_url, config.edit_uri),
        schemas=f"{(config.site_url or '').rstrip('/')}/{SCHEMAS}",
        name=config.site_name,
        data=wanted.told(),
        contact=own.contact or "",
        day=foot.day,
    )
    ready = {**given, **manifest.files(config.site_name, config.site_description or "")}
    return Brief(
        site=site,
        guides=tuple(guides(files)),
        around=around,
        wanted=wanted,
        pictured=own.pictures.pictured(config.site_name),
        base=f"{config.site_url.rstrip('/')}/" if config.site_url else None,
        beside=(
            *((path, partial(bytes, data)) for path, data in ready.items()),
            *((path, kept.read_bytes) for path, kept in pictures.items()),
        ),
    )


def _help_address(own: SpanbookConfig, files: Files) -> str | None:
    if own.help_page is None:
        return None
    file = files.get_file_from_path(own.help_page)
    if file is None:
        raise PluginError(words.no_help_page(own.help_page))
    return file.url
