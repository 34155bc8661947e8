"""A picture's file without what it says besides the picture: no place, no camera, no remarks, no tail.

Told by how the file is built, of the parts that JPEG (ITU-T T.81), PNG (W3C) and WebP (RFC 9649) are made of;
the picture itself stays as it was packed. How a camera was held is said besides, too: see `images.is_turned`.
"""

from __future__ import annotations

_JPEG_ALLOWED = {0xDB, 0xC4, 0xDD, *range(0xC0, 0xC4), *range(0xC5, 0xC8), *range(0xC9, 0xCC)}
# JFIF's and Adobe's heads say how colours are meant; longer ones hold a small picture.
_JPEG_HEADS = {0xE0: 16, 0xEE: 14}
_JPEG_SCAN, _JPEG_END = 0xDA, b"\xff\xd9"
_PNG = b"\x89PNG\r\n\x1a\n"
_PNG_LAST = b"IEND"
_PNG_ALLOWED = {
    b"IHDR",
    b"PLTE",
    b"IDAT",
    _PNG_LAST,
    b"tRNS",
    b"gAMA",
    b"cHRM",
    b"sRGB",
    b"sBIT",
    b"pHYs",
    b"bKGD",
}
_WEBP_HEAD = b"VP8X"
_WEBP_ALLOWED = {b"VP8 ", b"VP8L", _WEBP_HEAD, b"ALPH"}
_WEBP_MORE = 0x20 | 0x08 | 0x04  # what the head says of a profile, EXIF and XMP


def bare(data: bytes) -> bytes | None:
    """The file with the picture alone; None where it cannot be followed to its end."""
    if data.startswith(b"\xff\xd8"):
        return _jpeg(data)
    if data.startswith(_PNG):
        return _png(data)
    return _webp(data) if data.startswith(b"RIFF") and data[8:12] == b"WEBP" else None


def is_bare(data: bytes) -> bool:
    return bare(data) == data


def _jpeg(data: bytes) -> bytes | None:
    made, at = [data[:2]], 2
    while at + 4 <= len(data) and data[at] == 0xFF:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4], "big")
        end = at + 2 + length
        if marker == _JPEG_SCAN:
            end = _scan_end(data, end)
            made.append(data[at:end])
            if data[end : end + 2] == _JPEG_END:
                return b"".join((*made, _JPEG_END))
        elif marker in _JPEG_ALLOWED or _JPEG_HEADS.get(marker) == length:
            made.append(data[at:end])
        at = end
    return None


def _scan_end(data: bytes, at: int) -> int:
    """Where the next marker stands after coded data, in which 0xFF is followed by 0 or counts restarts."""
    while (at := data.find(b"\xff", at)) >= 0:
        after = data[at + 1 : at + 2]
        if after and after[0] != 0 and not 0xD0 <= after[0] <= 0xD7:
            return at
        at += 2
    return len(data)


def _png(data: bytes) -> bytes | None:
    made, at = [_PNG], len(_PNG)
    while at + 12 <= len(data):
        name, end = data[at + 4 : at + 8], at + 12 + int.from_bytes(data[at : at + 4], "big")
        if name in _PNG_ALLOWED:
            made.append(data[at:end])
        if name == _PNG_LAST:
            return b"".join(made) if end <= len(data) else None
        at = end
    return None


def _webp(data: bytes) -> bytes | None:
    made, at, whole = list[bytes](), 12, 8 + int.from_bytes(data[4:8], "little")
    if whole > len(data):
        return None
    while at + 8 <= whole:
        name, size = data[at : at + 4], int.from_bytes(data[at + 4 : at + 8], "little")
        end = at + 8 + size + size % 2
        if name == _WEBP_HEAD:
            made.append(data[at : at + 8] + bytes((data[at + 8] & ~_WEBP_MORE,)) + data[at + 9 : end])
        elif name in _WEBP_ALLOWED:
            made.append(data[at:end])
        at = end
    if at != whole:
        return None
    body = b"WEBP" + b"".join(made)
    return b"RIFF" + len(body).to_bytes(4, "little") + body
