"""A register of a few records made by hand."""

from __future__ import annotations

from spanbook.reading import read_bytes
from spanbook.reading.records import Record
from spanbook.register.link import build
from spanbook.register.model import Register

MACHINE = """\
kind: machine
id: x
title: X
maker: Example Works
series:
- {id: xa, stamped: "XA {number}", plate: machine, first: 1, last: %s, skipped: [[8, 9]]}
- {id: xb, stamped: "XA {number}", plate: other, first: 15, last: 40}
"""
POSITIONS = "kind: positions\npositions:\n- {id: cover, title: Cover}\n- {id: drain, title: Drain}\n"


def record(text: str, kind: str, stem: str) -> Record:
    made = read_bytes(text.encode(), f"{stem}.yml", kind, stem)
    assert isinstance(made, Record), made
    return made


def assembly(id_: str, span: str, position: str = "cover") -> Record:
    text = (
        f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: {position}\nserials:\n- {{series: xa, {span}}}\n"
    )
    return record(text, "assembly", id_)


def register(*records: Record, last: str = "20") -> Register:
    base = [record(MACHINE % last, "machine", "x"), record(POSITIONS, "positions", "positions")]
    return build([*base, *records])


def lid(id_: str, span: str, evidence: str = "", series: str = "xa") -> Record:
    held = f", evidence: [{evidence}]" if evidence else ""
    head = f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\n"
    return record(f"{head}serials:\n- {{series: {series}, {span}{held}}}\n", "assembly", id_)


def teardown(serial: str, series: str = "", position: str = "cover") -> Record:
    """What was read on one machine; `series` empty: the record does not say which."""
    text = f'kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: "{serial}"\ncondition: untouched\n'
    text += f"found: [{{position: {position}, note: A lid}}]\n" + (f"series: {series}\n" if series else "")
    return record(text, "teardown", "t")


def unit(*serials: str, series: str = "") -> Record:
    """One machine with several numbers; `series` where they would read in more than one."""
    named = f", series: {series}" if series else ""
    numbers = "".join(f"- {{serial: {serial}{named}}}\n" for serial in serials)
    return record(f"kind: unit\nid: u\nmachine: x\nnumbers:\n{numbers}", "unit", "u")
