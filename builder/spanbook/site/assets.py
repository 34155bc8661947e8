"""The site's own stylesheet, gathered from the files that stand beside the views."""

from __future__ import annotations

from pathlib import Path

STYLESHEET = "assets/spanbook.css"
_HERE = Path(__file__).parent


def stylesheet() -> str:
    """All of it in one file: the frame first, then each view's own."""
    files = [_HERE / "style.css", _HERE / "charts.css", *sorted(_HERE.glob("*/*.css"))]
    return "\n".join(file.read_text(encoding="utf-8") for file in files)
