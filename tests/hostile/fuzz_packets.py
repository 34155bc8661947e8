"""Damaged packets: one is refused with sentences and nothing is written, or all of it lies where it said."""

from __future__ import annotations

import io
import json
import random
import tempfile
from pathlib import Path
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile, ZipInfo

from spanbook.editing import CannotChange
from spanbook.faces.receiving import How, receive
from spanbook.ground.bare import is_bare
from spanbook.reading.packets import NoPacket
from spanbook.reading.problems import errors
from spanbook.rules.checking import check_folder
from spanbook.wording import receiving as words
from tests.hostile.drawings import DRAWINGS
from tests.hostile.fuzz import Fuzzer
from tests.hostile.pictures import PICTURES, picture
from tests.hostile.records import RECORDS
from tests.hostile.texts import LINES
from tests.support.command import project
from tests.support.packets import ABOUT, RECORD, SEEN
from tests.support.trees import tree

PICTURE = "content/photographs/xa-9/cover.jpg"
SHOWN = SEEN + '    photographs:\n      - file: "xa-9/cover.jpg"\n        shows: "The cover"\n'
NAMES = [
    RECORD,
    PICTURE,
    "content/teardowns/xa-9.yml",
    "content/sources/a.yml",
    "content/assemblies/lid.yml",
    "content/positions.yml",
    "content/drawings/lid.svg",
    "content/index.md",
    "mkdocs.yml",
    ".github/workflows/x.yml",
    "../x.yml",
    "content/../../x.yml",
    "/tmp/x.yml",
    "content/teardowns/",
    "content/teardowns/con.yml",
    "content/teardowns/XA-9-merrin.yml",
    "content/teardowns/x.yml/y.yml",
    "packet.json",
    "p/packet.json",
    "__MACOSX/._x",
    "\0",
    "a" * 300,
]
_PHOTOGRAPHS = [data for make, _ in PICTURES.values() if len(data := make()) < 100_000]
_DRAWINGS = [data for make, _ in DRAWINGS.values() if len(data := make()) < 100_000]
_SOUND = picture(size=(64, 48))
_RECORDS = [b"", SEEN.encode(), SHOWN.encode(), *(data for data, _ in RECORDS.values())]
_DATA = [*_RECORDS, *_PHOTOGRAPHS, *_DRAWINGS]
_SAID = [*LINES.values(), "", "2026-06-02", "2026-02-30", "x" * 5000, "0" * 16, RECORD]


def _make(chance: random.Random) -> bytes:
    about: dict[str, object] = dict(ABOUT)
    files = {RECORD: SHOWN.encode(), PICTURE: _SOUND}
    if chance.random() < 0.3:
        about[chance.choice([*ABOUT, "corrects", "more"])] = chance.choice(
            [*_SAID, 1, 2, None, [], {}, {chance.choice(NAMES): chance.choice(_SAID)}]
        )
    if chance.random() < 0.4:
        files[PICTURE] = chance.choice(_PHOTOGRAPHS)
    for _ in range(chance.choice((0, 0, 1, 2))):
        files[chance.choice(NAMES)] = chance.choice(_DATA)
    data = bytearray(_packed(chance, about, files))
    for _ in range(chance.choice((0, 0, 0, 1, 3))):
        # Mostly at the end, where an archive says what is in it.
        far = len(data) if chance.random() < 0.4 else min(len(data), 300)
        data[-chance.randrange(1, far)] = chance.choice((0, 1, 255, chance.randrange(256)))
    return bytes(data)


def _packed(chance: random.Random, about: dict[str, object], files: dict[str, bytes]) -> bytes:
    out = io.BytesIO()
    with ZipFile(out, "w", chance.choice((ZIP_STORED, ZIP_DEFLATED))) as archive:
        for name, data in {"packet.json": json.dumps(about, ensure_ascii=False).encode(), **files}.items():
            entry = ZipInfo(name)
            entry.external_attr = 0o100644 << 16
            if chance.random() < 0.05:
                entry.external_attr = chance.choice((0, 0o120777, 0o010644)) << 16
            archive.writestr(entry, data)
    return out.getvalue()


def _judge(case: bytes) -> str:
    with tempfile.TemporaryDirectory(prefix="spanbook-fuzz-") as name:
        place = Path(name)
        folder, file = project(place / "p"), place / "p.zip"
        file.write_bytes(case)
        before = tree(place)
        outcome, told = "laid", list[str]()
        try:
            found = receive(folder, file)
            found.lay_folder(folder)
        except NoPacket as refused:
            outcome, told = "no packet", [*map(words.finding_line, refused.findings)]
        except CannotChange as why:
            outcome, told = "refused", str(why).splitlines()
        after = tree(place)
        if outcome != "laid":
            assert told
            assert all(line.isprintable() for line in told)
            assert after == before
            return outcome
        laid = {f"p/content/{one.path}": one.data for one in found.files if one.how is not How.SAME}
        files = {path for path, data in after.items() if data is not None}
        assert {path: after[path] for path in files if after[path] != before.get(path, "")} == laid
        assert all(is_bare(data) for path, data in laid.items() if "photographs/" in path)
        assert not errors(check_folder(folder).problems)
        return outcome


FUZZER = Fuzzer(_make, _judge)
