"""The seam between pages and what is around them: only a frame knows what its theme calls things."""

from __future__ import annotations

import re
from pathlib import Path

from spanbook.mkdocs import frames
from spanbook.site import assets

PACKAGE = Path(assets.__file__).parents[1]
HERE = Path(frames.__file__).parent
# A theme's own names: classes, properties, attributes, ids, icons. `material` alone is what a part is of.
THEMES = re.compile(r"\bmd-|--md\b|\b__(?:drawer|search|palette|md_)|Material for|material/", re.IGNORECASE)


def test_no_style_template_or_script_outside_of_the_frames_speaks_of_a_theme() -> None:
    kinds = (".css", ".html", ".js", ".svg", ".txt")
    files = [file for file in PACKAGE.rglob("*") if file.suffix in kinds and HERE not in file.parents]
    assert len(files) > 60
    wrong = [
        f"{file.relative_to(PACKAGE)}: {found[0]}"
        for file in files
        if (found := THEMES.search(file.read_text(encoding="utf-8")))
    ]
    assert wrong == []


def test_every_variable_that_the_pages_style_uses_is_given_a_value_there() -> None:
    """Else a page would lean on what one theme happens to define."""
    style = assets.stylesheet(frames.material()).decode()
    used = set(re.findall(r"var\((--[\w-]+)\)", style))
    assert len(used) > 20
    assert used - set(re.findall(r"(--[\w-]+):", style)) == set()


def test_what_is_dark_is_what_is_light_in_other_colours() -> None:
    """A colour that only one of them has would stay as it is, or be missing, when the light is turned."""
    light = re.search(r":root \{(.*?)\}", (PACKAGE / "site/style.css").read_text(encoding="utf-8"), re.DOTALL)
    assert light
    names = {name for name in re.findall(r"(--sb-[\w-]+):", light[1]) if not name.endswith("-font")}
    assert names == set(
        re.findall(r"(--sb-[\w-]+):", (PACKAGE / "site/dark.txt").read_text(encoding="utf-8"))
    )


def test_a_frame_says_what_is_dark() -> None:
    style = assets.stylesheet(frames.material()).decode()
    assert "@media screen { [data-md-color-scheme=slate] {\n  --sb-bar: #16343a;" in style
