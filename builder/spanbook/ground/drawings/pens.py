"""Which of our pens a shape gets, by how it looks in its file."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, replace

from spanbook.ground.drawings.drawing import Pen

_HEX = re.compile("#([0-9a-fA-F]{3}|[0-9a-fA-F]{6})")
_RGB = re.compile(r"rgb\(\s{0,9}([0-9]{1,3})[\s,]{1,9}([0-9]{1,3})[\s,]{1,9}([0-9]{1,3})\s{0,9}\)")
_KNOWN = ("fill", "stroke", "stroke-dasharray", "fill-rule", "display", "visibility")
_NOTHING = ("none", "transparent")
_LIGHT = {"white", "ivory", "snow", "whitesmoke", "lightgray", "lightgrey", "silver", "gainsboro"}


@dataclass(frozen=True, slots=True)
class Look:
    """What a shape inherits: empty where nothing is painted; `gone` where it is not shown at all."""

    fill: str = "black"
    stroke: str = ""
    dashed: bool = False
    odd: bool = False
    hidden: bool = False
    gone: bool = False

    def inside(self, attributes: Mapping[str, str]) -> Look:
        """The look of an element in one of this look."""
        look = self
        for key, value in _said(attributes):
            match key:
                case "fill" if value not in ("inherit", ""):
                    look = replace(look, fill="" if value in _NOTHING else value)
                case "stroke" if value not in ("inherit", ""):
                    look = replace(look, stroke="" if value in _NOTHING else value)
                case "stroke-dasharray":
                    look = replace(look, dashed=value not in ("none", "0"))
                case "fill-rule":
                    look = replace(look, odd=value == "evenodd")
                case "visibility":
                    look = replace(look, hidden=value != "visible")
                case "display":
                    look = replace(look, gone=look.gone or value == "none")
        return look

    @property
    def pen(self) -> Pen | None:
        """None where nothing of it would be seen."""
        if self.hidden or self.gone:
            return None
        light = self.fill and is_light(self.fill)
        if self.stroke:
            # Filled dark it is dark throughout, whatever its outline.
            if self.fill:
                return Pen.SOLID if light else Pen.INK
            return Pen.DASHED if self.dashed else Pen.LINE
        if not self.fill:
            return None
        return Pen.BLANK if light else Pen.INK


def _said(attributes: Mapping[str, str]) -> list[tuple[str, str]]:
    """What an element says of its look; what stands in its style goes before its attributes."""
    style = (part.partition(":") for part in attributes.get("style", "").split(";"))
    said = {key: attributes[key] for key in _KNOWN if key in attributes}
    said |= {key.strip(): value.strip() for key, _, value in style if key.strip() in _KNOWN}
    return [(key, value.strip().lower().removesuffix("!important").strip()) for key, value in said.items()]


def is_light(colour: str) -> bool:
    """Whether a colour is more like paper than like ink; a pattern or a shading is."""
    if found := _HEX.fullmatch(colour):
        digits = found[1] if len(found[1]) == 6 else "".join(digit * 2 for digit in found[1])
        red, green, blue = (int(digits[at : at + 2], 16) for at in (0, 2, 4))
    elif found := _RGB.fullmatch(colour):
        red, green, blue = (int(part) for part in found.groups())
    else:
        return colour in _LIGHT or colour.startswith("url(")
    # How bright an eye finds it: ITU-R BT.601.
    return 0.299 * red + 0.587 * green + 0.114 * blue > 127
