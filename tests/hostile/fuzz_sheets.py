"""Rubbish of spreadsheets: each is read, or said to be none."""

from __future__ import annotations

import random
import tempfile
from functools import cache
from pathlib import Path

from spanbook.reading.sheets import NotASheet, read_sheet
from tests.hostile.fuzz import Fuzzer
from tests.support import sheets

ROWS: sheets.Rows = [["No.", "Name", "Qty"], ["0012", "Knob", 1], [13, "=A1", 2.5], ["K-3", "Größe", None]]


def make(chance: random.Random) -> bytes:
    """A sound file with bytes changed, cut off, put twice or in another's place."""
    data = bytearray(chance.choice(_sound()))
    for _ in range(chance.choice((0, 1, 1, 3, 10, 50))):
        at = chance.randrange(len(data) or 1)
        match chance.randrange(5):
            case 0:
                data[at : at + 1] = bytes([chance.randrange(256)])
            case 1:
                del data[at : at + chance.choice((1, 8, 100))]
            case 2:
                data[at:at] = data[at : at + chance.choice((1, 8, 100))]
            case 3:
                data[at : at + 4] = chance.choice((b"\xff\xff\xff\xff", b"\0\0\0\0", b"\0\0\0\x7f"))
            case _:
                other = chance.choice(_sound())
                data[at : at + 30] = other[at : at + 30]
    return bytes(data)


def judge(case: bytes) -> str:
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "case"
        file.write_bytes(case)
        try:
            return "read" if read_sheet(file).rows else "empty"
        except NotASheet as why:
            if not str(why).startswith(f"{file}: "):
                raise AssertionError(f"the file is not named: {why}") from None
            return "refused"


@cache
def _sound() -> tuple[bytes, ...]:
    with tempfile.TemporaryDirectory() as folder:
        made = (sheets.xlsx, sheets.ods, sheets.xls, sheets.csv)
        return tuple(make_(Path(folder) / "a", ROWS).read_bytes() for make_ in made)


FUZZER = Fuzzer(make, judge)
