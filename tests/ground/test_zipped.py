"""Zip archives taken apart in memory: what is in them, and what is refused before it harms."""

from __future__ import annotations

import io
import struct
import zlib
from collections.abc import Callable
from functools import cache
from zipfile import ZIP_BZIP2, ZIP_DEFLATED, ZipFile, ZipInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground import zipped
from spanbook.ground.zipped import Flaw, Refused, Wrong, unzip
from tests.support.packets import zipped as made


def whole(_: str) -> int:
    return 1_000_000


def link() -> bytes:
    entry = ZipInfo("a")
    entry.create_system, entry.external_attr = 3, 0o120777 << 16
    return _with(entry)


def _with(entry: ZipInfo, data: bytes = b"x") -> bytes:
    out = io.BytesIO()
    with ZipFile(out, "w") as archive:
        archive.writestr(entry, data)
    return out.getvalue()


@cache
def bomb() -> bytes:
    """A file of zeroes that says of itself how large it is."""
    return made({"a": bytes(zipped.MOST_BYTES + 1)}, deflated=True)


def quiet_bomb() -> bytes:
    """The same, said to be one byte: no more than that is taken, and its sum is wrong then."""
    data = bytearray(bomb())
    for signature, at in ((b"PK\x03\x04", 22), (b"PK\x01\x02", 24)):
        place = data.rindex(signature)
        data[place + at : place + at + 4] = struct.pack("<I", 1)
    return bytes(data)


def overlapping() -> bytes:
    """Many files that are all the same bytes of the archive: small to send, large to unpack."""
    inside = bytes(900_000)
    data = zlib.compress(inside)[2:-4]
    about = struct.pack("<5H3I2H", 20, 0, 8, 0, 33, zlib.crc32(inside), len(data), len(inside), 1, 0)
    lists = b"".join(
        b"PK\x01\x02" + struct.pack("<H", 20) + about + struct.pack("<3H2I", 0, 0, 0, 0, 0) + b"a"
        for _ in range(100)
    )
    local = b"PK\x03\x04" + about + b"a" + data
    return local + lists + struct.pack("<4s4H2IH", b"PK\x05\x06", 0, 0, 100, 100, len(lists), len(local), 0)


def locked() -> bytes:
    data = bytearray(made({"a": b"x"}))
    for signature, at in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        data[data.rindex(signature) + at] |= 1
    return bytes(data)


def twice() -> bytes:
    data = made({"a": b"x", "b": b"y"})
    return data.replace(b"b", b"a")


def two_names() -> bytes:
    data = made({"a": b"x"})
    return (
        data[:30] + b"b" + data[31:]
    )  # the name at the beginning, behind a head that has the time (APPNOTE 4.3.7)


def other_sum() -> bytes:
    return made({"a": b"something"}).replace(b"something", b"anothings")


def bzip() -> bytes:
    out = io.BytesIO()
    with ZipFile(out, "w", ZIP_BZIP2) as archive:
        archive.writestr("a", b"x" * 100)
    return out.getvalue()


def large() -> bytes:
    """The end of a zip64, whose own numbers go before those that are looked at."""
    data = made({"a": b"x"})
    return data[:-22] + b"PK\x06\x07" + bytes(16) + data[-22:]


BAD: dict[str, tuple[Callable[[], bytes], Wrong]] = {
    "nothing": (lambda: b"", Wrong(Flaw.NO_ZIP)),
    "no archive": (lambda: b"kind: teardown\n" * 9, Wrong(Flaw.NO_ZIP)),
    "cut": (lambda: made({"a": b"x"})[:-1], Wrong(Flaw.NO_ZIP)),
    "something behind": (lambda: made({"a": b"x"}) + b"x", Wrong(Flaw.NO_ZIP)),
    "cut in front": (lambda: made({"a": b"x" * 99})[60:], Wrong(Flaw.DAMAGED, "a")),
    "a broken list": (lambda: made({"a": b"x"}).replace(b"PK\1\2", b"PK\1\3"), Wrong(Flaw.DAMAGED)),
    "too long": (lambda: bytes(zipped.MOST_BYTES + 1), Wrong(Flaw.TOO_MANY_BYTES)),
    "too many": (lambda: made({str(n): b"" for n in range(501)}), Wrong(Flaw.TOO_MANY_FILES)),
    "a long list": (lambda: made({f"{n:0900}": b"" for n in range(400)}), Wrong(Flaw.TOO_MANY_FILES)),
    "zip64": (large, Wrong(Flaw.TOO_MANY_FILES)),
    "a bomb": (bomb, Wrong(Flaw.TOO_MUCH_INSIDE)),
    "a quiet bomb": (quiet_bomb, Wrong(Flaw.DAMAGED, "a")),
    "a link": (link, Wrong(Flaw.LINK, "a")),
    "locked": (locked, Wrong(Flaw.LOCKED, "a")),
    "twice": (twice, Wrong(Flaw.TWICE, "a")),
    "overlapping": (overlapping, Wrong(Flaw.TWICE, "a")),
    "two names": (two_names, Wrong(Flaw.DAMAGED, "a")),
    "another sum": (other_sum, Wrong(Flaw.DAMAGED, "a")),
    "packed otherwise": (bzip, Wrong(Flaw.PACKED_OTHERWISE, "a")),
}


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=pytest.mark.slow) if name == "a bomb" else name for name in BAD]
)
def test_what_is_refused_and_why(name: str) -> None:
    make, wrong = BAD[name]
    with pytest.raises(Refused) as refused:
        unzip(make(), whole)
    assert wrong in refused.value.wrong


def test_what_several_unpack_to_together_is_limited(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(zipped, "MOST_BYTES", 640_000)
    piece = bytes(100_000)
    data = made({str(n): piece for n in range(6)}, deflated=True)
    assert sum(map(len, unzip(data, lambda _: len(piece)).values())) == 600_000
    with pytest.raises(Refused) as refused:
        unzip(made({str(n): piece for n in range(7)}, deflated=True), lambda _: len(piece))
    assert refused.value.wrong == (Wrong(Flaw.TOO_MUCH_INSIDE),)


def test_of_a_file_that_is_too_large_one_byte_more_is_given() -> None:
    found = unzip(
        made({"a": b"x" * 50, "b": b"y" * 50}, deflated=True), lambda name: 10 if name == "a" else 50
    )
    assert {name: len(data) for name, data in found.items()} == {"a": 11, "b": 50}


@given(
    st.dictionaries(
        st.text(st.characters(codec="utf-8", exclude_characters="\0\\/"), min_size=1, max_size=20),
        st.binary(max_size=300),
        max_size=8,
    ),
    st.booleans(),
)
def test_what_was_packed_comes_out(files: dict[str, bytes], deflated: bool) -> None:
    assert unzip(made(files, deflated=deflated), whole) == files


def test_folders_are_no_files() -> None:
    out = io.BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED) as archive:
        archive.mkdir("content")
        archive.writestr("content/a.yml", b"x")
    assert unzip(out.getvalue(), whole) == {"content/a.yml": b"x"}


@given(st.binary(max_size=200), st.integers(0, 400), st.integers(0, 255))
def test_a_damaged_archive_is_refused_or_read(more: bytes, at: int, byte: int) -> None:
    data = bytearray(made({"a": more, "b": b"y" * 20}))
    data[at % len(data)] = byte
    try:
        found = unzip(bytes(data), whole)
    except Refused:
        return
    assert all(len(held) <= 1_000_001 for held in found.values())
