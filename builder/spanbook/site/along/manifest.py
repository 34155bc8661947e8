"""What a device is told of the site when it is put among its programs (W3C, Web Application Manifest)."""

from __future__ import annotations

import json

from spanbook.ground.icon import icon
from spanbook.site.along.files import FOLDER

MANIFEST = f"{FOLDER}site.webmanifest"
SIDES = (180, 192, 512)
_BAR, _GROUND = "#23474d", "#fdfbf6"
_UP = "../" * FOLDER.count("/")


def _icon_of(side: int) -> str:
    return f"{FOLDER}icon-{side}.png"


def files(name: str, said: str) -> dict[str, bytes]:
    """The manifest of a site by its name and what is said of it, and its icons."""
    icons = [
        {
            "src": f"{_UP}{_icon_of(side)}",
            "sizes": f"{side}x{side}",
            "type": "image/png",
            "purpose": " ".join(("any", "maskable")),
        }
        for side in SIDES
    ]
    made = {
        "name": name,
        "description": said,
        "start_url": _UP,
        "scope": _UP,
        "display": "standalone",
        "theme_color": _BAR,
        "background_color": _GROUND,
        "icons": icons,
    }
    text = json.dumps(made, ensure_ascii=False, indent=1)
    return {MANIFEST: text.encode(), **{_icon_of(side): icon(side) for side in SIDES}}
