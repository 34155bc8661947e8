"""The frames that pages may stand in. A frame alone knows how its theme calls things.

`material` is Material for MkDocs, `own` the small theme of this package (`theme: spanbook`), and `plain` is
made for whatever else MkDocs can find: what a page needs is then put into that theme's ready HTML.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from mkdocs.config.defaults import MkDocsConfig
from mkdocs.localization import parse_locale

from spanbook.site.frame import Frame

HERE = Path(__file__).parent
PIECES = HERE / "pieces"
_OWN = HERE / "own"


@dataclass(frozen=True, slots=True)
class Around:
    """A frame with the folders of templates that are laid over its theme's.

    `made_for` says that these templates, or the theme's own, have our pieces in them.
    """

    frame: Frame
    over: tuple[Path, ...]
    made_for: bool = True


def frame_of(config: MkDocsConfig) -> Around:
    if config.theme.name == "material":
        return Around(material_frame(), (HERE / "material", PIECES))
    if _OWN.resolve() in (Path(folder).resolve() for folder in config.theme.dirs):
        return Around(own_frame(), (PIECES,))
    return Around(plain_frame(), (PIECES,), made_for=False)


def in_language(config: MkDocsConfig, language: str) -> None:
    """A theme speaks what the pages do, where it can: Material and our own have a setting for it."""
    config.theme["language"] = language
    if not frame_of(config).made_for:
        config.theme["locale"] = parse_locale(language)


def material_frame() -> Frame:
    return Frame(_style("material"), (("screen", "[data-md-color-scheme=slate]"),))


def own_frame() -> Frame:
    """Dark as the device has it, until the reader has chosen."""
    device = ("screen and (prefers-color-scheme: dark)", ":root:not([data-light=day])")
    dark = (device, ("screen", ":root[data-light=night]"))
    light = (HERE / "light.js").read_text(encoding="utf-8")
    return Frame(_style("base") + _style("own"), dark, scripts=(("assets/light.js", light),))


def plain_frame() -> Frame:
    """Light, as most themes are that do not say so in a way that could be known."""
    return Frame(_style("base") + _style("plain"), (), rem=16)


def _style(name: str) -> str:
    return (HERE / f"{name}.css").read_text(encoding="utf-8")
