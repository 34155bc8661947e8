"""Pictures from strangers: told by their bytes, limited before they are decoded, and made anew.

What comes out holds the picture and nothing else: no place where it was taken, no camera, no thumbnail, no
remarks, nothing behind its end.
"""

from __future__ import annotations

import io
import warnings
from collections.abc import Iterator
from dataclasses import dataclass

from PIL import Image, ImageOps

MOST_BYTES = 12_000_000
MOST_PIXELS = 50_000_000
WIDTHS = (480, 960, 1920)
_QUALITY = 80
# Says how the versions are made: another recipe makes other pictures of the same bytes.
RECIPE = f"webp {_QUALITY} {WIDTHS}"
# How the files of each sort begin; a name or a promise of a sort counts for nothing.
_SORTS = {
    "JPEG": (b"\xff\xd8\xff", 0, b""),
    "PNG": (b"\x89PNG\r\n\x1a\n", 0, b""),
    "WEBP": (b"RIFF", 8, b"WEBP"),
}


class Refused(Exception):  # noqa: N818 - it says what happened
    """A file that is not taken as a photograph. The message says why."""


@dataclass(frozen=True, slots=True)
class Version:
    """A picture of one width, as WebP."""

    width: int
    height: int
    data: bytes


def check(data: bytes) -> None:
    """Raises Refused for anything but a sound JPEG, PNG or WebP within the limits."""
    with _opened(data) as image:
        # Large JPEGs are decoded small: enough to see that they are whole.
        image.draft("RGB", (WIDTHS[0], WIDTHS[0]))
        _load(image)


def versions(data: bytes) -> Iterator[Version]:
    """The picture upright in every width up to its own, the narrowest first. Raises Refused as `check`."""
    with _opened(data) as image:
        _load(image)
        upright = ImageOps.exif_transpose(image).convert("RGBA" if _has_alpha(image) else "RGB")
    # A new image: nothing that was attached to the old one comes along.
    fresh = Image.new(upright.mode, upright.size)
    fresh.paste(upright)
    for width in dict.fromkeys(min(width, fresh.width) for width in WIDTHS):
        height = max(1, round(fresh.height * width / fresh.width))
        out = io.BytesIO()
        fresh.resize((width, height), Image.Resampling.LANCZOS).save(out, "WEBP", quality=_QUALITY, method=4)
        yield Version(width, height, out.getvalue())


def _opened(data: bytes) -> Image.Image:
    if len(data) > MOST_BYTES:
        raise Refused(f"{len(data):,} bytes; at most {MOST_BYTES:,} are taken")
    sort = next((s for s, (head, at, more) in _SORTS.items() if _is(data, head, at, more)), None)
    if sort is None:
        raise Refused("it is no JPEG, PNG or WebP")
    try:
        # Reads the head of the file and decodes nothing yet.
        image = Image.open(io.BytesIO(data), formats=(sort,))
    except (OSError, ValueError, SyntaxError, Image.DecompressionBombError) as failure:
        raise Refused(f"it cannot be read as {sort}: {failure}") from failure
    if image.width * image.height > MOST_PIXELS:
        raise Refused(f"{image.width} by {image.height} pixels; at most {MOST_PIXELS:,} are taken")
    if getattr(image, "n_frames", 1) > 1:
        raise Refused("it moves; one picture is wanted")
    return image


def _is(data: bytes, head: bytes, at: int, more: bytes) -> bool:
    return data.startswith(head) and data[at:].startswith(more)


def _load(image: Image.Image) -> None:
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error", Image.DecompressionBombWarning)
            image.load()
    except (OSError, ValueError, SyntaxError, MemoryError, Image.DecompressionBombError) as failure:
        raise Refused(f"it is damaged: {failure}") from failure


def _has_alpha(image: Image.Image) -> bool:
    return image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info
