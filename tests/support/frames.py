"""The demonstration, or a fresh community, in another frame than its settings name."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

from spanbook.mkdocs import frames
from spanbook.mkdocs.build import build
from tests.support.command import PROJECT, run

# By its folder, as well as by its name: the name is known only where this state of the package is installed.
_FOLDER = Path(frames.__file__).parent / "own"
OWN = f"{{name: null, custom_dir: '{_FOLDER}', static_templates: [404.html], locale: en}}"
# Two that come with MkDocs stand for all that were not made for these pages.
THEMES = {"own": OWN, "mkdocs": "mkdocs", "readthedocs": "readthedocs"}
_THEME = re.compile(r"^theme:\n(?:[ #].*\n|\n)*", re.MULTILINE)


def settings_in(text: str, theme: str) -> str:
    """Settings with their theme exchanged."""
    changed, count = _THEME.subn(lambda _: f"theme: {theme}\n", text)
    assert count == 1
    return changed


def demonstration_in(theme: str, folder: Path) -> Path:
    """The site of the demonstration in a theme, built strictly."""
    shutil.copytree(PROJECT / "content", folder / "content")
    settings = (PROJECT / "mkdocs.yml").read_text(encoding="utf-8")
    (folder / "mkdocs.yml").write_text(settings_in(settings, theme), encoding="utf-8")
    build(folder, folder / "site", strict=True, say=lambda text: None)
    return folder / "site"


def community_in(theme: str, folder: Path) -> Path:
    """The site of a fresh community in a theme."""
    assert run("start", folder).exit_code == 0
    settings = folder / "mkdocs.yml"
    settings.write_text(settings_in(settings.read_text(encoding="utf-8"), theme), encoding="utf-8")
    assert run("build", folder).exit_code == 0
    return folder / "site"
