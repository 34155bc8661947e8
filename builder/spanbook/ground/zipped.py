"""A zip archive from a stranger, taken apart in memory: all of its files, or what is wrong with it.

It is read as PKWARE's APPNOTE 6.3 has it, but only as far as anybody needs: files stored or deflated, with no
password, no comment, no second volume and no zip64. What it claims of itself is never believed: a file is
unpacked no further than is asked for, and all of them together no further than MOST_BYTES.
"""

from __future__ import annotations

import io
import stat
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from zipfile import ZIP_DEFLATED, ZIP_STORED, BadZipFile, ZipFile, ZipInfo

MOST_BYTES = 64_000_000  # of an archive, and of all that is in it
MOST_FILES = 500
_MOST_LIST = MOST_FILES * 512  # bytes of the list of files at its end: 46 for each, its name and its times
_END, _END_SIZE = b"PK\x05\x06", 22
_LARGE, _LARGE_SIZE = b"PK\x06\x07", 20  # what stands before the end of a zip64
_LOCKED = 0x1 | 0x40  # flags of a file with a password


class Flaw(StrEnum):
    """What is wrong with an archive, or with one file in it."""

    NO_ZIP = "no-zip"
    DAMAGED = "damaged"
    TOO_MANY_BYTES = "too-many-bytes"
    TOO_MANY_FILES = "too-many-files"
    TOO_MUCH_INSIDE = "too-much-inside"
    LOCKED = "locked"
    LINK = "link"
    TWICE = "twice"
    PACKED_OTHERWISE = "packed-otherwise"


@dataclass(frozen=True, slots=True)
class Wrong:
    """A flaw, and the name of the file that has it; empty for the archive itself."""

    flaw: Flaw
    name: str = ""


class Refused(Exception):  # noqa: N818 - it says what happened
    """An archive that is not taken; `wrong` has everything that was found."""

    def __init__(self, *wrong: Wrong) -> None:
        super().__init__(*wrong)
        self.wrong = wrong


def unzip(data: bytes, most: Callable[[str], int]) -> dict[str, bytes]:
    """Every file by its name, in their order. Raises Refused.

    `most` says of a name how many bytes are taken: of a file with more, one byte more is given.
    """
    with _opened(data) as archive:
        listed = [entry for entry in archive.infolist() if not entry.filename.endswith("/")]
        if wrong := [*_listed_wrong(listed)]:
            raise Refused(*wrong)
        found: dict[str, bytes] = {}
        left = MOST_BYTES
        for entry in listed:
            found[entry.filename] = _read(archive, entry, min(most(entry.filename), left) + 1)
            left -= len(found[entry.filename])
            if left < 0:
                raise Refused(Wrong(Flaw.TOO_MUCH_INSIDE))
        return found


def _opened(data: bytes) -> ZipFile:
    """The archive with its list read: never before it is known how long that is."""
    if len(data) > MOST_BYTES:
        raise Refused(Wrong(Flaw.TOO_MANY_BYTES))
    end = data[-_END_SIZE:]
    before = data[-_END_SIZE - _LARGE_SIZE : -_END_SIZE]
    # A comment at the end would hide which of two lists is meant.
    if len(end) < _END_SIZE or not end.startswith(_END) or not end.endswith(b"\0\0"):
        raise Refused(Wrong(Flaw.NO_ZIP))
    if before.startswith(_LARGE) or int.from_bytes(end[12:16], "little") > _MOST_LIST:
        raise Refused(Wrong(Flaw.TOO_MANY_FILES))
    try:
        return ZipFile(io.BytesIO(data))
    except (BadZipFile, NotImplementedError, ValueError, IndexError, OverflowError, OSError):
        raise Refused(Wrong(Flaw.DAMAGED)) from None


def _listed_wrong(listed: list[ZipInfo]) -> Iterator[Wrong]:
    """What the list tells before anything is unpacked."""
    if len(listed) > MOST_FILES:
        yield Wrong(Flaw.TOO_MANY_FILES)
        return
    seen = set[str]()
    for entry in listed:
        name = entry.filename
        if entry.filename != entry.orig_filename:
            yield Wrong(Flaw.DAMAGED, name)
        if name in seen:
            yield Wrong(Flaw.TWICE, name)
        seen.add(name)
        if entry.flag_bits & _LOCKED:
            yield Wrong(Flaw.LOCKED, name)
        elif entry.compress_type not in (ZIP_STORED, ZIP_DEFLATED):
            yield Wrong(Flaw.PACKED_OTHERWISE, name)
        if stat.S_IFMT(entry.external_attr >> 16) not in (0, stat.S_IFREG):
            yield Wrong(Flaw.LINK, name)
    if sum(entry.file_size for entry in listed) > MOST_BYTES:
        yield Wrong(Flaw.TOO_MUCH_INSIDE)


def _read(archive: ZipFile, entry: ZipInfo, most: int) -> bytes:
    try:
        with archive.open(entry) as file:
            return file.read(most)
    except (BadZipFile, NotImplementedError, RuntimeError, ValueError, EOFError, OSError, zlib.error):
        raise Refused(Wrong(Flaw.DAMAGED, entry.filename)) from None
