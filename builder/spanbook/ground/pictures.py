"""The picture beside a link to a page where somebody shares it: a plate with a few words and a strip.

Few colours and no smoothing: it is made in a few milliseconds and takes about three kilobytes.
"""

from __future__ import annotations

import io
from dataclasses import dataclass
from enum import IntEnum
from functools import cache, lru_cache
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

# Says how they are made: another recipe makes another picture of the same words.
RECIPE = "3"
SIZE = (800, 420)
_MARGIN, _BAND, _BAR, _ROW = 28, 58, 26, 58
_WIDE = SIZE[0] - 2 * _MARGIN
_MOST_STRIPS = 2
_WORDS_KEPT = 5_000  # of a hundred bytes or two each
_RUN_LENGTHS = 3  # zlib's Z_RLE: of plain areas it makes as little as any other, in a fifth of the time
_LARGE, _MIDDLE, _SMALL = 44, 25, 20
# What is set in type otherwise than a typewriter has it.
_TYPED = str.maketrans({"–": "-", "—": "-", "’": "'", "“": '"', "”": '"', "…": "...", "×": "x", "\xa0": " "})


class Tone(IntEnum):
    """The colours, each by its place in the palette."""

    GROUND = 0
    INK = 1
    QUIET = 2
    BRASS = 3
    SURE = 4
    NEXT = 5
    MAYBE = 6
    WRONG = 7


_COLOURS = (
    *((0xFD, 0xFB, 0xF6), (0x1D, 0x24, 0x26), (0x4C, 0x56, 0x59), (0xE3, 0xCF, 0x9B)),
    *((0x2A, 0x5B, 0x62), (0xC9, 0xA3, 0x5C), (0xC4, 0xC9, 0xC6), (0xA3, 0x21, 0x1C)),
)
PALETTE = [part for colour in _COLOURS for part in colour]
_BITS_OF_LETTERS = 2  # the first four tones are all that a picture without a strip has


@dataclass(frozen=True, slots=True)
class Strip:
    """Numbers from `first` to `last` as they are stamped; bars in per cent: left edge, width, tone."""

    first: str
    last: str
    bars: tuple[tuple[float, float, Tone], ...]


@dataclass(frozen=True, slots=True)
class Plate:
    """What stands on a picture: whose site, what sort of page, its name, what it says, its strips."""

    site: str
    sort: str
    title: str
    said: str
    strips: tuple[Strip, ...]


class Unwritable(Exception):  # noqa: N818 - what it is, not what went wrong
    """The letters have none for a character of a name: no picture is better than a wrong name."""


@dataclass(frozen=True, slots=True)
class Letters:
    """The letters of a font file, or Pillow's own, which has those of a typewriter only."""

    file: Path | None = None

    def width(self, text: str, size: int) -> float:
        return _width(self.file, size, text)

    def has(self, text: str) -> bool:
        return all(character == " " or _has(self.file, character) for character in text)


@cache
def _font(file: Path | None, size: int) -> ImageFont.FreeTypeFont:
    found = ImageFont.load_default(size) if file is None else ImageFont.truetype(str(file), size)
    assert isinstance(found, ImageFont.FreeTypeFont), "Pillow has FreeType"
    return found


@lru_cache(50_000)
def _width(file: Path | None, size: int, text: str) -> float:
    return _font(file, size).getlength(text)


@lru_cache(_WORDS_KEPT)
def _written(file: Path | None, size: int, word: str) -> Image.Image:
    """One word, for it is the drawing of letters that takes long, and most words come again."""
    font = _font(file, size)
    picture = Image.new("1", (int(_width(file, size, word)) + size, size * 2))
    draw = ImageDraw.Draw(picture)
    draw.fontmode = "1"
    draw.text((0, 0), word, font=font, fill=1)
    return picture


@cache
def _has(file: Path | None, character: str) -> bool:
    font = _font(file, _SMALL)
    return bytes(font.getmask(character)) != bytes(font.getmask("\uffff"))


def png(plate: Plate, letters: Letters) -> bytes:
    """Raises Unwritable where the name cannot be written; a line below it that cannot is left out."""
    title = plate.title.translate(_TYPED)
    if not letters.has(title):
        raise Unwritable(plate.title)
    picture = Image.new("P", SIZE, Tone.GROUND)
    bits = 4 if plate.strips else _BITS_OF_LETTERS
    picture.putpalette(PALETTE[: 3 * 2**bits])
    draw = ImageDraw.Draw(picture)
    draw.rectangle((0, 0, SIZE[0], _BAND), fill=Tone.BRASS)
    draw.line((0, _BAND + 4, SIZE[0], _BAND + 4), fill=Tone.INK, width=2)
    strips = plate.strips[:_MOST_STRIPS]
    below = SIZE[1] - 12 - _ROW * len(strips)

    def write(text: str, y: int, size: int, tone: Tone, most: int) -> int:
        text = text.translate(_TYPED)
        for line in _lines(text, letters, size, most) if letters.has(text) else ():
            if y + size > below:
                break
            _write(draw, (_MARGIN, y), line, letters, size, tone)
            y += round(size * 1.25)
        return y

    write(plate.site, 16, _MIDDLE, Tone.INK, 1)
    y = write(plate.sort, _BAND + 18, _SMALL, Tone.QUIET, 1)
    y = write(title, y + 2, _LARGE, Tone.INK, 2)
    write(plate.said, y + 6, _MIDDLE, Tone.QUIET, 4)
    for i, strip in enumerate(strips):
        _draw(draw, strip, letters, below + i * _ROW)
    file = io.BytesIO()
    picture.save(file, "PNG", bits=bits, compress_level=1, compress_type=_RUN_LENGTHS)
    return file.getvalue()


def _write(
    draw: ImageDraw.ImageDraw, at: tuple[float, int], text: str, letters: Letters, size: int, tone: Tone
) -> None:
    x, y = at
    for word in text.split(" "):
        if word:
            draw.bitmap((round(x), y), _written(letters.file, size, word), fill=tone)
        x += letters.width(f"{word} ", size)


def _lines(text: str, letters: Letters, size: int, most: int) -> list[str]:
    """The words of a text in lines that fit, the last cut off where there are more."""
    lines, wide = [""], 0.0
    for word in text.split():
        more = letters.width(f" {word}", size)
        if wide + more <= _WIDE or not lines[-1]:
            lines[-1], wide = f"{lines[-1]} {word}".strip(), wide + more
        elif len(lines) < most:
            lines.append(word)
            wide = more
        else:
            lines[-1] += f" {word}"
            break
    return [_cut(line, letters, size) for line in lines]


def _cut(text: str, letters: Letters, size: int) -> str:
    if len(text) * size < _WIDE or letters.width(text, size) <= _WIDE:
        return text
    while letters.width(f"{text}...", size) > _WIDE:
        text = text[:-1]
    return f"{text.rstrip(' ,.;:')}..."


def _draw(draw: ImageDraw.ImageDraw, strip: Strip, letters: Letters, top: int) -> None:
    for x, width, tone in strip.bars:
        left, right = (_MARGIN + round(_WIDE * part / 100) for part in (x, x + width))
        draw.rectangle((left, top, max(left + 2, right - 1), top + _BAR), fill=tone)
    draw.rectangle((_MARGIN, top, _MARGIN + _WIDE, top + _BAR), outline=Tone.INK)
    for text, right in ((strip.first, False), (strip.last, True)):
        if letters.has(text := text.translate(_TYPED)):
            x = SIZE[0] - _MARGIN - letters.width(text, _SMALL) if right else _MARGIN
            _write(draw, (x, top + _BAR + 5), text, letters, _SMALL, Tone.QUIET)
