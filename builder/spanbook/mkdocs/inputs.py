"""What a site is made from, by settings as they were loaded.

What a digest cannot answer for (a hook, somebody else's plugin, a setting taken from elsewhere) makes none,
and the site is then built whenever it is asked for.
"""

from __future__ import annotations

import sysconfig
from collections.abc import Iterator
from pathlib import Path
from pkgutil import iter_modules

from markdown import extensions
from mkdocs.config.defaults import MkDocsConfig

from spanbook.mkdocs.digested import Inputs, MadeFrom, digested

_PLUGINS = {"spanbook", "search", "material/search"}
# Those of Markdown itself read nothing but the page.
_PREFIXES = ("", "markdown.extensions.")


def inputs_of(config: MkDocsConfig) -> Inputs | None:
    """None on any doubt."""
    return None if _in_doubt(config) else digested(made_from(config))


def made_from(config: MkDocsConfig) -> MadeFrom:
    """The community's places, and those of a theme that is no package's."""
    installed = {Path(sysconfig.get_path(name)).resolve() for name in ("purelib", "platlib")}
    themes = [Path(folder).resolve() for folder in config.theme.dirs]
    own = (theme for theme in themes if not installed & {*theme.parents})
    settings, content, *watched = map(str, places_of(config))
    letters = config.plugins["spanbook"].config.pictures.font
    files = () if letters is None else (str(letters),)
    return MadeFrom(str(Path(settings).absolute()), content, (*watched, *map(str, own), *files))


def places_of(config: MkDocsConfig) -> Iterator[Path]:
    """Where somebody changes a site: its settings, records and guides, and its own templates."""
    yield Path(config.config_file_path)
    yield Path(config.docs_dir)
    if config.theme.custom_dir:
        yield Path(config.theme.custom_dir)
    yield from map(Path, config.watch)


def _in_doubt(config: MkDocsConfig) -> bool:
    """Whether something has a say that may read whatever it likes."""
    known = {f"{prefix}{one.name}" for one in iter_modules(extensions.__path__) for prefix in _PREFIXES}
    return bool(
        config.hooks
        or "spanbook" not in config.plugins
        or set(config.plugins) - _PLUGINS
        or set(config.markdown_extensions) - known
    )
