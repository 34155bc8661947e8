"""Whether a picture's file holds anything besides the picture, told by how the file is built.

Each way to say more is written by Pillow, or put together as the standard has it: EXIF (CIPA DC-008), XMP
(ISO 16684-1) and comments in JPEG (ITU-T T.81); tEXt, iTXt, eXIf and tIME in PNG (W3C); EXIF, XMP and ICCP
in WebP (RFC 9649).
"""

from __future__ import annotations

import io
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from PIL.PngImagePlugin import PngInfo

from spanbook.ground.bare import bare, is_bare
from spanbook.ground.images import check
from tests.hostile.pictures import chunk, picture, saved
from tests.support.rows import each_row

SMALL = (64, 48)
_EXIF = Image.Exif()
_EXIF[0x010F] = "A camera"
EXIF = _EXIF.tobytes()
XMP = b"<x:xmpmeta xmlns:x='adobe:ns:meta/'/>"


def named(key: str, value: str) -> PngInfo:
    info = PngInfo()
    info.add_text(key, value)
    return info


def segment(marker: int, body: bytes) -> Callable[[bytes], bytes]:
    """A JPEG with one more segment at its beginning."""
    made = bytes((0xFF, marker)) + (len(body) + 2).to_bytes(2) + body
    return lambda data: data[:2] + made + data[2:]


def png_chunk(name: bytes, body: bytes) -> bytes:
    """A PNG with one more chunk behind its head."""
    data = picture("PNG", SMALL)
    return data[:33] + chunk(name, body) + data[33:]


BARE: dict[str, bytes] = {
    "JPEG": picture("JPEG", SMALL),
    "JPEG in passes": picture("JPEG", SMALL, progressive=True),
    "JPEG with restarts": picture("JPEG", SMALL, restart_marker_blocks=2),
    "JPEG in passes with restarts": picture("JPEG", SMALL, progressive=True, restart_marker_blocks=1),
    "JPEG of grey": saved(Image.new("L", SMALL, 90), "JPEG"),
    "JPEG of four inks": saved(Image.new("CMYK", SMALL), "JPEG"),
    "PNG": picture("PNG", SMALL),
    "PNG with a palette": saved(Image.new("P", SMALL), "PNG"),
    "PNG with glass": saved(Image.new("RGBA", SMALL), "PNG"),
    "PNG with its resolution": picture("PNG", SMALL, dpi=(72, 72)),
    "WebP": picture("WEBP", SMALL),
    "WebP without loss": picture("WEBP", SMALL, lossless=True),
    "WebP with glass": saved(Image.new("RGBA", SMALL, (1, 2, 3, 90)), "WEBP"),
}
MORE: dict[str, bytes] = {
    "JPEG with EXIF": picture("JPEG", SMALL, exif=EXIF),
    "JPEG with XMP": picture("JPEG", SMALL, xmp=XMP),
    "JPEG with a profile": picture("JPEG", SMALL, icc_profile=b"x" * 200),
    "JPEG with a comment": picture("JPEG", SMALL, comment=b"Our yard"),
    "JPEG with Photoshop's": segment(0xED, b"Photoshop 3.0\0x")(picture("JPEG", SMALL)),
    "JPEG with JFIF's small picture": segment(0xE0, b"JFIF\0\1\2\0\0\1\0\1\1\1abc")(picture("JPEG", SMALL)),
    "JPEG with a film behind it": picture("JPEG", SMALL) + b"\0\0\0\x18ftypmp42",
    "JPEG cut off": picture("JPEG", SMALL)[:-1],
    "PNG with text": picture("PNG", SMALL, pnginfo=named("Author", "merrin")),
    "PNG with foreign text": picture("PNG", SMALL, pnginfo=named("Author", "\u0101")),
    "PNG with EXIF": picture("PNG", SMALL, exif=EXIF),
    "PNG with a profile": picture("PNG", SMALL, icc_profile=b"x" * 200),
    "PNG with its hour": png_chunk(b"tIME", b"\7\xea\6\2\0\0\0"),
    "PNG with what nobody knows": png_chunk(b"caBX", b"x"),
    "PNG with something behind it": picture("PNG", SMALL) + b"x",
    "PNG cut off": picture("PNG", SMALL)[:-4],
    "WebP with EXIF": picture("WEBP", SMALL, exif=EXIF),
    "WebP with XMP": picture("WEBP", SMALL, xmp=XMP),
    "WebP with a profile": picture("WEBP", SMALL, icc_profile=b"x" * 200),
    "WebP with something behind it": picture("WEBP", SMALL) + b"xx",
    "a drawing": b"<svg xmlns='http://www.w3.org/2000/svg'/>",
    "nothing": b"",
}


@each_row("name", BARE)
def test_a_picture_alone_is_bare(name: str) -> None:
    assert is_bare(BARE[name])


@each_row("name", MORE)
def test_whatever_a_file_says_besides_is_seen(name: str) -> None:
    assert not is_bare(MORE[name])


@each_row("name", [name for name in MORE if " with " in name])
def test_the_picture_stays_and_nothing_else(name: str) -> None:
    made = bare(MORE[name])
    assert made is not None
    assert is_bare(made)
    before, after = Image.open(io.BytesIO(MORE[name])), Image.open(io.BytesIO(made))
    assert before.convert("RGB").tobytes() == after.convert("RGB").tobytes()
    assert not set(after.info) & {"exif", "xmp", "icc_profile", "comment", "Author", "photoshop"}
    assert b"camera" not in made
    check(made)  # raises where it is unsound


@pytest.mark.parametrize("name", [name for name in MORE if " with " not in name])
def test_what_cannot_be_followed_is_left_alone(name: str) -> None:
    assert bare(MORE[name]) is None


@given(st.sampled_from(sorted(BARE)), st.integers(0, 10_000), st.binary(min_size=1, max_size=40))
def test_a_damaged_file_is_judged_all_the_same(name: str, at: int, more: bytes) -> None:
    data = BARE[name]
    at %= len(data)
    assert is_bare(data[:at] + more + data[at:]) in (True, False)
    assert not is_bare(data + more)
