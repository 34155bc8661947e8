"""Files offered as photographs: what must be told of each. `ok` where it is a sound picture after all."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable

from PIL import Image

from spanbook.ground.images import MOST_BYTES

Make = Callable[[], bytes]


def picture(sort: str = "JPEG", size: tuple[int, int] = (1000, 600), **more: object) -> bytes:
    """Red, with blue in the upper left quarter."""
    image = Image.new("RGB", size, (200, 30, 30))
    image.paste((30, 30, 200), (0, 0, size[0] // 2, size[1] // 2))
    return saved(image, sort, **more)


def saved(image: Image.Image, sort: str, **more: object) -> bytes:
    out = io.BytesIO()
    image.save(out, sort, **more)
    return out.getvalue()


def chunk(name: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + name + body + struct.pack(">I", zlib.crc32(name + body))


def claimed(width: int, height: int) -> bytes:
    """A PNG that says it is that large and holds nothing."""
    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    chunks = ((b"IHDR", head), (b"IDAT", zlib.compress(b"")), (b"IEND", b""))
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunk(*each) for each in chunks)


def grey_of_16_bits(shades: list[int], transparent: int | None = None) -> bytes:
    """A PNG of one line of shades from 0 to 65,535 (W3C PNG, colour type 0, bit depth 16)."""
    head = struct.pack(">IIBBBBB", len(shades), 1, 16, 0, 0, 0, 0)
    line = b"\0" + struct.pack(f">{len(shades)}H", *shades)
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(line)), (b"IEND", b"")]
    if transparent is not None:
        chunks.insert(1, (b"tRNS", struct.pack(">H", transparent)))
    return b"\x89PNG\r\n\x1a\n" + b"".join(chunk(*each) for each in chunks)


def in_passes(count: int) -> bytes:
    """A progressive JPEG whose last pass is drawn again and again."""
    data = picture(size=(64, 64), progressive=True)
    at = data.rindex(b"\xff\xda")
    return data[:-2] + data[at:-2] * (count - data.count(b"\xff\xda")) + data[-2:]


def two_in_one() -> bytes:
    """A JPEG with a second picture behind the first (CIPA DC-007), as cameras with two eyes write it."""
    first, second = (Image.new("RGB", (40, 30), colour) for colour in ("red", "blue"))
    return saved(first, "MPO", save_all=True, append_images=[second])


def _moving(sort: str) -> bytes:
    frames = [Image.new("RGB", (20, 20), colour) for colour in ("red", "blue")]
    return saved(frames[0], sort, save_all=True, append_images=frames[1:])


def _turned(orientation: bytes) -> bytes:
    """A JPEG with one EXIF entry, whatever it is, for the orientation."""
    return picture(size=(60, 40), exif=b"Exif\0\0II*\0\x08\0\0\0\x01\0" + orientation + bytes(4))


PICTURES: dict[str, tuple[Make, str]] = {
    # no picture, or of a sort that is not taken
    "svg": (lambda: b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>", "no JPEG"),
    "gif": (lambda: picture("GIF"), "no JPEG"),
    "bmp": (lambda: picture("BMP"), "no JPEG"),
    "tiff": (lambda: picture("TIFF"), "no JPEG"),
    "ico": (lambda: picture("ICO", (32, 32)), "no JPEG"),
    "pdf": (lambda: picture("PDF"), "no JPEG"),
    "postscript": (lambda: b"%!PS-Adobe-3.0 EPSF-3.0\n(x) run\n", "no JPEG"),
    "html": (lambda: b"<!doctype html><script>alert(1)</script>", "no JPEG"),
    "zip": (lambda: b"PK\x03\x04" + bytes(40), "no JPEG"),
    "empty": (lambda: b"", "no JPEG"),
    "one byte": (lambda: b"\xff", "no JPEG"),
    "a sound file in riff": (lambda: b"RIFF\x24\x00\x00\x00WAVEfmt ", "no JPEG"),
    # damaged
    "a jpeg's head alone": (lambda: b"\xff\xd8\xff\xe0", "cannot be read"),
    "a png's head alone": (lambda: b"\x89PNG\r\n\x1a\n", "cannot be read"),
    "a webp's head alone": (lambda: b"RIFF\x24\x00\x00\x00WEBPVP8 ", "cannot be read"),
    "cut in half": (lambda: picture()[: len(picture()) // 2], "damaged"),
    "a png cut in half": (lambda: picture("PNG")[:-60], "damaged"),
    "said to be large and empty": (lambda: claimed(5_000, 3_000), "damaged"),
    "said to have no width": (lambda: claimed(0, 10), "cannot be read"),
    # beyond a limit
    "said to be enormous": (lambda: claimed(60_000, 60_000), "pixels"),
    "said to be just too large": (lambda: claimed(10_000, 5_001), "pixels"),
    "too many bytes": (lambda: picture() + bytes(MOST_BYTES), "bytes"),
    "tall and thin": (lambda: picture("PNG", (1, 20_000)), "on a side"),
    "wide and thin": (lambda: picture("PNG", (20_000, 1)), "on a side"),
    "as tall as there is": (lambda: picture("PNG", (1, 16_383)), "ok"),
    "as wide as there is": (lambda: picture("PNG", (16_383, 1)), "ok"),
    "one pixel": (lambda: picture("PNG", (1, 1)), "ok"),
    "a moving webp": (lambda: _moving("WEBP"), "moves"),
    "a moving png": (lambda: _moving("PNG"), "moves"),
    "a hundred passes": (lambda: in_passes(100), "ok"),
    "a thousand passes": (lambda: in_passes(1000), "passes"),
    # two pictures in one file: the first is taken
    "two in one": (two_in_one, "ok"),
    "two in one, the second cut off": (lambda: two_in_one()[:-100], "ok"),
    # how a camera was held, in disorder
    "rubbish for exif": (lambda: picture(size=(60, 40), exif=b"Exif\0\0" + b"\xff" * 60), "ok"),
    "exif cut off": (lambda: picture(size=(60, 40), exif=b"Exif\0\0II*\0\x08\0\0\0\x01"), "ok"),
    "exif that points nowhere": (lambda: picture(size=(60, 40), exif=b"Exif\0\0II*\0\xff\xff\xff\xff"), "ok"),
    "rubbish for exif in a png": (lambda: picture("PNG", (60, 40), exif=b"\xff" * 60), "ok"),
    "rubbish for exif in a webp": (lambda: picture("WEBP", (60, 40), exif=b"Exif\0\0" + b"\xff" * 60), "ok"),
    "an orientation of text": (lambda: _turned(b"\x12\x01\x02\0\x02\0\0\0a\0\0\0"), "ok"),
    "two orientations": (lambda: _turned(b"\x12\x01\x03\0\x02\0\0\0\x06\0\x08\0"), "ok"),
    "an orientation of a million values": (lambda: _turned(b"\x12\x01\x03\0\0\0\x10\0\x06\0\0\0"), "ok"),
    "the orientation 99": (lambda: _turned(b"\x12\x01\x03\0\x01\0\0\0\x63\0\0\0"), "ok"),
    # other sorts of colours
    "16 bits of grey": (lambda: grey_of_16_bits([0, 20_000, 65_535]), "ok"),
    "16 bits of grey, one transparent": (lambda: grey_of_16_bits([0, 20_000, 65_535], 20_000), "ok"),
    "black and white": (lambda: saved(Image.new("1", (9, 9)), "PNG"), "ok"),
    "grey and transparent": (lambda: saved(Image.new("LA", (9, 9)), "PNG"), "ok"),
    "a palette, one transparent": (lambda: saved(Image.new("P", (9, 9)), "PNG", transparency=0), "ok"),
    "a palette, some transparent": (lambda: saved(Image.new("P", (9, 9)), "PNG", transparency=b"\x07"), "ok"),
    "one colour transparent": (lambda: picture("PNG", (9, 9), transparency=(200, 30, 30)), "ok"),
    "printer's colours": (lambda: saved(Image.new("CMYK", (9, 9)), "JPEG"), "ok"),
    "grey": (lambda: saved(Image.new("L", (9, 9)), "JPEG"), "ok"),
}
