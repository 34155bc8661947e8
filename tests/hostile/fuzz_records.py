"""Bytes offered as a record: nothing but a record or problems may come of them."""

from __future__ import annotations

import json
import random
import re
from pathlib import Path

from spanbook.faces import scaffold
from spanbook.reading import read_bytes
from spanbook.reading.kinds import KINDS
from spanbook.reading.records import Record
from spanbook.reading.schemas import bundled
from tests.hostile.fuzz import Fuzzer
from tests.hostile.records import RECORDS

# What YAML is made of, and what it must not be made of.
_PIECES = (
    b"kind: source\n~id: a\n~title: ~class: manual\n~- ~  ~\n~: ~[~]~{~}~\"~'~|\n~>\n~&a ~*a~!!str ~? ~# "
    b"~---\n~...\n~%~\t~\xff~\xe2\x80\xae~\0~\r\n~0x1~1e9~null~<<: ~\\u0000~\xf0\x9f\x94\xa7"
).split(b"~")
_HOSTILE = [data for data, _ in RECORDS.values() if len(data) < 3000]
_FILES = sorted((Path(scaffold.__file__).parent / "starter/content").rglob("*.yml"))


def _of_id_a(text: str) -> bytes:
    return re.sub(r"(?m)^id: .*$", "id: a", text).encode()


def _sound(kind: str) -> list[bytes]:
    """The starter's records of a kind, or the example of its schema where a fresh community has none."""
    found = [_of_id_a(file.read_text()) for file in _FILES if f"kind: {kind}\n" in file.read_text()]
    return found or [json.dumps(bundled(kind)["examples"][0], indent=1).encode()]


_SOUND = {kind: _sound(kind) for kind in KINDS}


def _make(chance: random.Random) -> bytes:
    """A kind on a line of its own, then the bytes of a record with the id a."""
    kind = chance.choice(tuple(KINDS))
    data = bytearray(chance.choice(_SOUND[kind] if chance.random() < 0.6 else _HOSTILE))
    for _ in range(chance.choice((1, 1, 2, 3, 6, 12))):
        at = chance.randrange(len(data) + 1)
        what = chance.randrange(5)
        if what == 0:
            data[at:at] = chance.choice(_PIECES)
        elif what == 1:
            del data[at : at + chance.randrange(1, 9)]
        elif what == 2:
            other = chance.choice(_HOSTILE)
            data[at:at] = other[: chance.randrange(len(other) + 1)]
        elif what == 3:  # a line of another record of the kind
            lines = chance.choice(_SOUND[kind]).splitlines(keepends=True)
            data[at:at] = chance.choice(lines)
        elif data:
            data[at % len(data)] = chance.randrange(256)
    return kind.encode() + b"\n" + data


def _judge(case: bytes) -> str:
    kind, _, data = case.partition(b"\n")
    found = read_bytes(data, "content/x/a.yml", kind.decode(), "a")
    if isinstance(found, Record):
        return "read"
    assert found, "neither a record nor a problem"
    assert all(str(problem).isprintable() for problem in found)
    return "refused"


FUZZER = Fuzzer(_make, _judge)
