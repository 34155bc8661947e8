"""The mark of a site among the programs of a device: a brass plate with a strip of numbers on it."""

from __future__ import annotations

import io

from PIL import Image, ImageDraw

from spanbook.ground.pictures import PALETTE, Tone

# In hundredths of the side. What stands on it keeps inside the circle that a device may cut out of it.
_BARS = (
    (22, 34, 78, 42, Tone.INK),
    (22, 47, 50, 62, Tone.SURE),
    (50, 47, 58, 62, Tone.MAYBE),
    (58, 47, 78, 62, Tone.NEXT),
    (22, 67, 62, 70, Tone.INK),
)
_RIVETS = ((19, 19), (81, 19), (19, 81), (81, 81))


def icon(side: int) -> bytes:
    """A PNG of so many points a side."""

    def at(*hundredths: float) -> tuple[float, ...]:
        return tuple(round(part * side / 100) for part in hundredths)

    picture = Image.new("P", (side, side), Tone.BRASS)
    picture.putpalette(PALETTE)
    draw = ImageDraw.Draw(picture)
    draw.rounded_rectangle(at(8, 8, 92, 92), radius=side // 12, outline=Tone.INK, width=max(1, side // 48))
    for left, top, right, bottom, tone in _BARS:
        draw.rectangle(at(left, top, right, bottom), fill=tone, outline=Tone.INK)
    for x, y in _RIVETS:
        draw.ellipse(at(x - 3, y - 3, x + 3, y + 3), fill=Tone.QUIET)
    file = io.BytesIO()
    picture.save(file, "PNG", bits=4)
    return file.getvalue()
