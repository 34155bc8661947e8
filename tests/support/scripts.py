"""The pages' own scripts, as they are sent: for node, and for a page that has none of them."""

from __future__ import annotations

from pathlib import Path

from spanbook.site import scripts
from spanbook.site.told import in_script

SITE = Path(scripts.__file__).parent


def script_text(*files: str) -> str:
    """Some of them one after another in the language that is spoken, by their paths in the site's folder."""
    return in_script("\n".join((SITE / file).read_text(encoding="utf-8") for file in files))
