"""Damaged pictures: the check refuses one with a sentence, or the build makes it."""

from __future__ import annotations

import random
import struct
import zlib

from spanbook.ground.images import Refused, check, versions
from spanbook.rules.photographs import refusal_words
from tests.hostile.fuzz import Fuzzer
from tests.hostile.pictures import PICTURES, picture

_SMALL = (64, 48)
_SEEDS = [
    *(data for make, wanted in PICTURES.values() if wanted == "ok" and len(data := make()) < 20_000),
    *(picture(sort, _SMALL) for sort in ("JPEG", "PNG", "WEBP")),
    picture("JPEG", _SMALL, progressive=True, restart_marker_blocks=2),
    picture(
        "WEBP",
        _SMALL,
        lossless=True,
        exif=b"Exif\0\0II*\0\x08\0\0\0\0\0",
        xmp=b"<x/>",
        icc_profile=b"x" * 200,
    ),
    picture("PNG", _SMALL, interlace=True, icc_profile=b"x" * 200, dpi=(72, 72)),
]
_SIGNATURE = b"\x89PNG\r\n\x1a\n"


def _make(chance: random.Random) -> bytes:
    data = bytearray(chance.choice(_SEEDS))
    for _ in range(chance.choice((1, 1, 1, 2, 3, 6, 20))):
        # Mostly in the head, where a file says what it is.
        at = chance.randrange(len(data) if chance.random() < 0.5 else min(len(data), 120))
        what = chance.randrange(6)
        if what == 0:
            data[at] = chance.randrange(256)
        elif what == 1:
            data[at] ^= 1 << chance.randrange(8)
        elif what == 2:
            value = chance.choice((0, 1, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFF))
            data[at : at + 4] = struct.pack(chance.choice("<>") + "I", value)
        elif what == 3:
            end = at + chance.randrange(1, 60)
            data[at:at] = data[at:end]
        elif what == 4:
            del data[at : at + chance.randrange(1, 30)]
        else:
            other = chance.choice(_SEEDS)
            start = chance.randrange(len(other))
            data[at : at + 40] = other[start : start + 40]
        data = data or bytearray(b"\0")
    return _sealed(bytes(data)) if chance.random() < 0.8 else bytes(data)


def _sealed(data: bytes) -> bytes:
    """With the check sums of a PNG made right again, which would refuse nearly every damage."""
    if not data.startswith(_SIGNATURE):
        return data
    made, at = [_SIGNATURE], len(_SIGNATURE)
    while at + 12 <= len(data):
        size = int.from_bytes(data[at : at + 4])
        named = data[at + 4 : at + 8 + size]
        if at + 12 + size > len(data):
            break
        made.append(data[at : at + 4] + named + struct.pack(">I", zlib.crc32(named)))
        at += 12 + size
    return b"".join(made) + data[at:]


def _judge(case: bytes) -> str:
    if why := _refusal(case):
        assert why.isprintable()
        assert "0x" not in why, "no object's address"
        return "refused"
    made = list(versions(case))
    assert made
    assert all(version.data[8:12] == b"WEBP" for version in made)
    return "made"


def _refusal(case: bytes) -> str | None:
    try:
        check(case)
    except Refused as refused:
        return refusal_words(refused)[0]
    return None


FUZZER = Fuzzer(_make, _judge)
