"""Packets as a site's form makes them, and as somebody else might."""

from __future__ import annotations

import io
import json
from collections.abc import Mapping
from zipfile import ZIP_DEFLATED, ZIP_STORED, ZipFile

ABOUT = {
    "packet": 1,
    "site": "X",
    "data": "2026-05-30",
    "made": "2026-06-02",
    "by": "merrin",
    "note": "The cover of XA 9.",
}
SEEN = """\
kind: "teardown"
id: "xa-9-merrin"
date: "2026-06-01"
seen-by: "merrin"
serial: "XA 9"
condition: "untouched"
found:
  - position: "body/cover"
    assembly: "lid"
"""
RECORD = "content/teardowns/xa-9-merrin.yml"


def zipped(files: Mapping[str, bytes | str], *, deflated: bool = False) -> bytes:
    out = io.BytesIO()
    with ZipFile(out, "w", ZIP_DEFLATED if deflated else ZIP_STORED) as archive:
        for name, data in files.items():
            archive.writestr(name, data)
    return out.getvalue()


def packet(files: Mapping[str, bytes | str] | None = None, **about: object) -> bytes:
    """A packet of these files; of one teardown when none are given. `about` goes over ABOUT."""
    said = {key: value for key, value in {**ABOUT, **about}.items() if value is not None}
    told = json.dumps(said, indent=2, ensure_ascii=False)
    return zipped({"packet.json": told, **({RECORD: SEEN} if files is None else files)})
