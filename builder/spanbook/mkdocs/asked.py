"""What the rest of the house wants to know of a project's settings where no site is made.

No plugin, hook or theme that they name is loaded or looked for: a build holds all of them to MkDocs.
"""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any, TypeVar

from mkdocs.config import config_options
from mkdocs.config.base import Config
from mkdocs.utils.yaml import get_yaml_loader, yaml_load
from yaml import SafeLoader

from spanbook.answers.assumed import Assumed
from spanbook.mkdocs.assumptions import AssumedConfig
from spanbook.mkdocs.failures import BuildFailed, failures_told
from spanbook.mkdocs.settings import file_of
from spanbook.site.addresses import SCHEMAS


class _Asked(Config):
    """What is asked of them, besides what stands under the plugin."""

    site_name = config_options.Type(str, default="")
    site_url = config_options.Optional(config_options.URL(is_dir=True))


def _typed(project: Path) -> dict[str, Any]:
    """Everything in a project's settings, as MkDocs reads the file."""
    file = file_of(project)
    loader = get_yaml_loader(SafeLoader)
    # What is named in Python, such as a theme's emoji, would be loaded.
    loader.add_multi_constructor("tag:yaml.org,2002:python/", lambda *_: None)
    with failures_told(), file.open("rb") as settings:
        found = yaml_load(settings, loader)
    return found if isinstance(found, dict) else {}


def _own(typed: Mapping[str, Any]) -> Mapping[str, Any]:
    """What stands under the plugin."""
    listed = typed.get("plugins") or ()
    entries = [listed] if isinstance(listed, dict) else [one for one in listed if isinstance(one, dict)]
    found = next((one["spanbook"] for one in entries if "spanbook" in one), None)
    return found if isinstance(found, dict) else {}


_C = TypeVar("_C", bound=Config)


def _valid(config: _C, typed: Mapping[str, Any]) -> _C:
    """What was typed of a part of the settings. Raises BuildFailed for a value that is none."""
    config.load_dict({name: typed[name] for name in config if name in typed})
    for name, wrong in config.validate()[0]:
        raise BuildFailed(f"{name}: {wrong}")
    return config


def _asked(project: Path) -> _Asked:
    return _valid(_Asked(), _typed(project) if (project / "mkdocs.yml").is_file() else {})


def assumed_of(project: Path) -> Assumed:
    """What the community assumes, from mkdocs.yml; the defaults where there is none.

    Raises BuildFailed for settings that cannot be read, and for what cannot be assumed.
    """
    if not (project / "mkdocs.yml").is_file():
        return Assumed()
    own = _valid(AssumedConfig(), _own(_typed(project)))
    with failures_told():
        return own.assumed()


def schema_address(project: Path, kind: str) -> str | None:
    """Where the site publishes the schema of a kind. Raises as `site_address`, and is None where that is."""
    site = site_address(project)
    return site and f"{site}{SCHEMAS}{kind}.json"


def site_address(project: Path) -> str | None:
    """Where the site is, with a slash at its end; None where the project does not say.

    Raises BuildFailed for settings that cannot be read.
    """
    return _asked(project).site_url or None


def site_name(project: Path) -> str:
    """What the site is called; empty where the project does not say. Raises as `site_address`."""
    return _asked(project).site_name
