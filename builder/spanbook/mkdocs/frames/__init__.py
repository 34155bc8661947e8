"""The frames that pages may stand in. A frame alone knows how its theme calls things."""

from __future__ import annotations

from pathlib import Path

from spanbook.site.frame import Frame

_HERE = Path(__file__).parent


def material() -> Frame:
    style = (_HERE / "material.css").read_text(encoding="utf-8")
    return Frame(style, (("screen", "[data-md-color-scheme=slate]"),))
