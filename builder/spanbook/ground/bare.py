"""Whether a picture's file holds the picture and nothing besides: no place, no camera, no remarks, no tail.

Told by how the file is built, of the parts that JPEG (ITU-T T.81), PNG (W3C) and WebP (RFC 9649) are made of.
Where a file cannot be followed to its end it is not bare.
"""

from __future__ import annotations

_JPEG_ALLOWED = {0xDB, 0xC4, 0xDD, *range(0xC0, 0xC4), *range(0xC5, 0xC8), *range(0xC9, 0xCC)}
# JFIF's and Adobe's heads say how colours are meant; longer ones hold a small picture.
_JPEG_HEADS = {0xE0: 16, 0xEE: 14}
_JPEG_SCAN, _JPEG_END = 0xDA, 0xD9
_PNG_ALLOWED = {
    b"IHDR",
    b"PLTE",
    b"IDAT",
    b"IEND",
    b"tRNS",
    b"gAMA",
    b"cHRM",
    b"sRGB",
    b"sBIT",
    b"pHYs",
    b"bKGD",
}
_WEBP_ALLOWED = {b"VP8 ", b"VP8L", b"VP8X", b"ALPH"}


def is_bare(data: bytes) -> bool:
    if data.startswith(b"\xff\xd8"):
        return _jpeg(data)
    if data.startswith(b"\x89PNG\r\n\x1a\n"):
        return _png(data)
    return data.startswith(b"RIFF") and data[8:12] == b"WEBP" and _webp(data)


def _jpeg(data: bytes) -> bool:
    at = 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        at += 2 + length
        if marker == _JPEG_SCAN:
            at = _scan_end(data, at)
            if data[at : at + 2] == bytes((0xFF, _JPEG_END)):
                return at + 2 == len(data)
        elif marker not in _JPEG_ALLOWED and _JPEG_HEADS.get(marker) != length:
            return False
    return False


def _scan_end(data: bytes, at: int) -> int:
    """Where the next marker stands after coded data, in which 0xFF is followed by 0 or counts restarts."""
    while (at := data.find(b"\xff", at)) >= 0:
        after = data[at + 1 : at + 2]
        if after and after[0] != 0 and not 0xD0 <= after[0] <= 0xD7:
            return at
        at += 2
    return len(data)


def _png(data: bytes) -> bool:
    at = 8
    while at + 12 <= len(data):
        name = data[at + 4 : at + 8]
        at += 12 + int.from_bytes(data[at : at + 4], "big")
        if name not in _PNG_ALLOWED:
            return False
        if name == b"IEND":
            return at == len(data)
    return False


def _webp(data: bytes) -> bool:
    if len(data) != 8 + int.from_bytes(data[4:8], "little"):
        return False
    at = 12
    while at + 8 <= len(data):
        size = int.from_bytes(data[at + 4 : at + 8], "little")
        if data[at : at + 4] not in _WEBP_ALLOWED:
            return False
        at += 8 + size + size % 2
    return at == len(data)
