"""Pictures from strangers: told by their bytes, limited before they are decoded, and made anew.

What comes out holds the picture and nothing else: no place where it was taken, no camera, no thumbnail, no
remarks, nothing behind its end. `check` and `versions` go one way up to the upright picture, which is where
all that can be wrong with a file is found: what the one takes, the other makes.
"""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import StrEnum

from PIL import Image, ImageFile
from PIL.JpegImagePlugin import JpegImageFile
from PIL.PngImagePlugin import PngImageFile
from PIL.WebPImagePlugin import WebPImageFile

MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
MOST_SIDE = 16_383  # what is made is WebP, which holds no more
WIDTHS = (160, 480, 960, 1920)
_QUALITY = 80
# Says how the versions are made: another recipe makes other pictures of the same bytes.
RECIPE = " ".join(("webp", str(_QUALITY), str(WIDTHS), "2"))
# A progressive JPEG is drawn in about ten passes; each may cover every pixel and costs a few bytes of file.
MOST_PASSES = 100
_PASS = re.compile(rb"\xff\xda\x00(?:\x08\x01|\x0a\x02|\x0c\x03|\x0e\x04)")
_ORIENTATION = 0x0112
# What has to be done to a picture so that it stands upright, by its EXIF orientation (CIPA DC-008).
_TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}

# What a decoder mutters about a stranger's file is nothing that anybody here can act on.
warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.")


class Flaw(StrEnum):
    """What is wrong with a file that is not taken as a photograph."""

    NO_PICTURE = "no-picture"
    UNREADABLE = "unreadable"  # it begins like one of a sort
    DAMAGED = "damaged"
    TOO_MANY_BYTES = "too-many-bytes"
    TOO_MANY_PIXELS = "too-many-pixels"
    TOO_LONG_A_SIDE = "too-long-a-side"
    MOVES = "moves"
    TOO_MANY_PASSES = "too-many-passes"
    NO_MEMORY = "no-memory"


class Refused(Exception):  # noqa: N818 - it says what happened
    """A file that is not taken as a photograph.

    `size` is its bytes, or its width and height, where they are what is wrong; `sort` what it begins like.
    """

    def __init__(self, flaw: Flaw, *size: int, sort: str = "") -> None:
        super().__init__(flaw, *size)
        self.flaw = flaw
        self.size = size
        self.sort = sort


@dataclass(frozen=True, slots=True)
class Version:
    """A picture of one width; as WebP unless it was made anew in its own form."""

    width: int
    height: int
    data: bytes


def limit(size: int) -> None:
    """Raises Refused for a file of more bytes than are taken."""
    if size > MOST_BYTES:
        raise Refused(Flaw.TOO_MANY_BYTES, size)


def check(data: bytes) -> None:
    """Raises Refused for anything but a sound JPEG, PNG or WebP within the limits."""
    _upright(data)


def versions(data: bytes) -> Iterator[Version]:
    """The picture upright in every width up to its own, the narrowest first. Raises Refused as `check`."""
    whole = _upright(data)
    for width in dict.fromkeys(min(width, whole.width) for width in WIDTHS):
        height = max(1, round(whole.height * width / whole.width))
        small = whole.resize((width, height), Image.Resampling.LANCZOS)
        small.info = {}  # what the file said besides
        out = io.BytesIO()
        small.save(out, "WEBP", quality=_QUALITY, method=4)
        yield Version(width, height, out.getvalue())


def anew(data: bytes) -> Iterator[Version]:
    """The picture upright in the form that it came in, no wider than the widest version. Raises as `check`.

    What a guide shows keeps its name, and a drawing its sharp lines.
    """
    form = _opened(data).format
    whole = _upright(data)
    width = min(whole.width, WIDTHS[-1])
    height = max(1, round(whole.height * width / whole.width))
    small = whole.resize((width, height), Image.Resampling.LANCZOS)
    small.info = {}
    out = io.BytesIO()
    if form == "JPEG":
        small.save(out, "JPEG", quality=85, optimize=True)
    elif form == "PNG":
        small.save(out, "PNG", optimize=True)
    else:
        small.save(out, "WEBP", quality=_QUALITY, method=4)
    yield Version(width, height, out.getvalue())


def is_turned(data: bytes) -> bool:
    """Whether the file says that the camera was not held upright. Raises Refused as `check`."""
    return _orientation(_opened(data)) in _TURNS


def pixels(data: bytes) -> int:
    """How many pixels a file says it has, which is what decoding it costs. Raises Refused as `check`."""
    image = _opened(data)
    return image.width * image.height


def _upright(data: bytes) -> Image.Image:
    """The picture in colours of 8 bits. It is never copied without need: it may take 200 MB."""
    image = _opened(data)
    with _decoding(Flaw.DAMAGED):
        image.load()
        turn = _TURNS.get(_orientation(image))
        coloured = _in_colours(image)
        return coloured if turn is None else coloured.transpose(turn)


def _opened(data: bytes) -> ImageFile.ImageFile:
    """The file with its head read and nothing decoded yet."""
    limit(len(data))
    for sort, begins, read in (
        ("JPEG", data.startswith(b"\xff\xd8\xff"), JpegImageFile),
        ("PNG", data.startswith(b"\x89PNG\r\n\x1a\n"), PngImageFile),
        ("WebP", data.startswith(b"RIFF") and data[8:12] == b"WEBP", WebPImageFile),
    ):
        # A name or a promise of a sort counts for nothing: how the file begins does.
        if begins:
            with _decoding(Flaw.UNREADABLE, sort):
                image = read(io.BytesIO(data))
            _within_limits(image, data)
            return image
    raise Refused(Flaw.NO_PICTURE)


def _within_limits(image: ImageFile.ImageFile, data: bytes) -> None:
    if image.width * image.height > MOST_PIXELS:
        raise Refused(Flaw.TOO_MANY_PIXELS, *image.size)
    if max(image.size) > MOST_SIDE:
        raise Refused(Flaw.TOO_LONG_A_SIDE, *image.size)
    # Of a JPEG with several pictures in it (cameras add a preview, or a second eye's) the first is taken.
    if getattr(image, "n_frames", 1) > 1:
        raise Refused(Flaw.MOVES)
    if isinstance(image, JpegImageFile) and len(_PASS.findall(data)) > MOST_PASSES:
        raise Refused(Flaw.TOO_MANY_PASSES)


@contextmanager
def _decoding(wrong: Flaw, sort: str = "") -> Iterator[None]:
    try:
        yield
    except MemoryError:
        raise Refused(Flaw.NO_MEMORY) from None
    except Exception as failure:  # a decoder that is fed rubbish can raise anything at all
        raise Refused(wrong, sort=sort) from failure


def _orientation(image: Image.Image) -> int:
    """How the camera was held; as it stands where that cannot be read, for the picture itself is sound."""
    try:
        found = image.getexif().get(_ORIENTATION)
    except Exception:  # as above
        return 1
    return found if isinstance(found, int) else 1


def _in_colours(image: Image.Image) -> Image.Image:
    if image.mode.startswith("I"):
        # Pillow would cut 16 bits of grey off at 255 rather than bring them to 8.
        return image.convert("I").point(lambda grey: grey * (255 / 65535) + 0.5).convert("L").convert("RGB")
    has_alpha = image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info
    wanted = "RGBA" if has_alpha else "RGB"
    return image if image.mode == wanted else image.convert(wanted)
