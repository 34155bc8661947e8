"""Forms for records, made from the schema: pages, scripts, and the records that they may be filled with."""

from __future__ import annotations

from pathlib import Path

from spanbook.site.told import in_script

_HERE = Path(__file__).parent
_NAMES = (
    "yaml.js",
    "propose.js",
    "pick.js",
    "plate.js",
    "known.js",
    "points.js",
    "fields.js",
    "draft.js",
    "keeping.js",
    "written.js",
    "form.js",
)
FOLDER = "assets/forms/"
# In this order: each uses what those before it define. They load on the pages of forms alone.
SCRIPTS = tuple(f"{FOLDER}{name}" for name in _NAMES)


def scripts() -> dict[str, bytes]:
    return {f"{FOLDER}{name}": in_script((_HERE / name).read_text("utf-8")).encode() for name in _NAMES}
