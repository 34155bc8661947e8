"""A packet as its schema has it, and everything that is told of one that is none."""

from __future__ import annotations

import json
from base64 import encodebytes

import pytest
from jsonschema import Draft202012Validator

from spanbook.reading import packets, schemas
from spanbook.reading.packets import NoPacket
from spanbook.reading.text import hidden
from tests.hostile.texts import LINES
from tests.reading.test_schemas import parts
from tests.support.packets import ABOUT, RECORD, SEEN, packet, zipped
from tests.support.rows import each_row


def told(data: bytes) -> list[str]:
    with pytest.raises(NoPacket) as refused:
        packets.read(data, "p.zip")
    return [f"{f.place.path}:{f.place.line}: {f.read}; {f.todo}" for f in refused.value.findings]


def test_what_was_sent_is_read() -> None:
    picture = "content/photographs/xa-9/cover.jpg"
    found = packets.read(packet({RECORD: SEEN, picture: b"x"}, corrects={RECORD: "0" * 16}), "p.zip")
    assert (found.site, found.data, found.made, found.by) == ("X", "2026-05-30", "2026-06-02", "merrin")
    assert found.note == "The cover of XA 9."
    assert found.files == {"photographs/xa-9/cover.jpg": b"x", "teardowns/xa-9-merrin.yml": SEEN.encode()}
    assert found.corrects == {"teardowns/xa-9-merrin.yml": "0" * 16}
    assert found.left_out == ()


@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_one_that_left_as_text_is_the_same(end: str) -> None:
    """As messages carry it: base64 in lines of 76 (RFC 2045), whichever way lines end."""
    data = packet()
    text = f"A packet of records, as text.\n\n{encodebytes(data).decode()}".replace("\n", end)
    assert packets.read(text.encode(), "p.packet.txt") == packets.read(data, "p.zip")


@pytest.mark.parametrize(
    "text", ["", "A packet.\n\n", "A packet.\n\nAAA", "A\nB\n\nAAAA", "A" * 201 + "\n\nAAAA"]
)
def test_a_text_that_is_none_is_told(text: str) -> None:
    assert told(text.encode()) == [
        "p.zip:1: it is no zip archive, or something stands behind its end; ask who sent it to send it again"
    ]


def test_what_need_not_be_said_is_empty() -> None:
    found = packets.read(packet(data=None, note=None), "p.zip")
    assert (found.data, found.note, found.corrects) == ("", "", {})


def test_one_that_was_packed_anew_on_a_desktop_is_read_without_what_that_adds() -> None:
    again = {
        "report/packet.json": json.dumps(ABOUT),
        f"report/{RECORD}": SEEN,
        "report/.DS_Store": "x",
        "__MACOSX/report/._packet.json": "x",
    }
    found = packets.read(zipped(again, deflated=True), "p.zip")
    assert list(found.files) == ["teardowns/xa-9-merrin.yml"]
    assert found.left_out == ("__MACOSX/report/._packet.json", "report/.DS_Store")


NAMES = [
    "../evil.yml",
    "content/../mkdocs.yml",
    "content/teardowns/../../mkdocs.yml",
    "/etc/passwd",
    "/content/teardowns/a.yml",
    "C:\\content\\a.yml",
    "content\\teardowns\\a.yml",
    "C:content/teardowns/a.yml",
    "content//teardowns/a.yml",
    "content/./teardowns/a.yml",
    "content/teardowns/a.yml/b.yml",
    "content/teardowns/a.yml ",
    "content/teardowns /a.yml",
    "content/teardowns/a\nb.yml",
    "content/teardowns/a\u202eb.yml",
    "content/teardowns/e\u0301.yml",
    "content/teardowns/con.yml",
    "content/nul/a.yml",
    f"content/teardowns/{'a' * 200}.yml",
    "content/index.md",
    "content/guide.md",
    "content/a.html",
    "content/photographs.md",
    "content/a.jpg",
    "content/gone/a.js",
    "mkdocs.yml",
    "teardowns/a.yml",
    "other/packet.json",
    "content",
]


@each_row("name", NAMES)
def test_a_name_that_is_no_place_for_a_record_is_refused(name: str) -> None:
    lines = told(packet({RECORD: SEEN, name: "x"}))
    assert len(lines) == 1
    assert lines[0].startswith(f"p.zip/{name}:1: ")


@each_row(
    ("data", "line"),
    [
        (b"rubbish", "p.zip:1: it is no zip archive"),
        (zipped({RECORD: SEEN}), "p.zip:1: no packet.json in it"),
        (packet({}), "p.zip:1: no record in it"),
        (
            packet({RECORD: SEEN, RECORD.replace("merrin", "Merrin"): SEEN}),
            f"p.zip/{RECORD.replace('merrin', 'Merrin')}:1: it differs from {RECORD} only in capitals",
        ),
        (packet(packet=2), "p.zip/packet.json:2: "),
        (packet(made="yesterday"), "p.zip/packet.json:5: "),
        (packet(by=None), "p.zip/packet.json:1: "),
        (packet(folder="/"), "p.zip/packet.json:8: "),
        (packet(corrects={"../a.yml": "0" * 16}), "p.zip/packet.json:9: "),
        (packet(by="mer\u202erin"), "p.zip/packet.json:6: "),
        (packet(note="x" * 70_000), "p.zip/packet.json:1: the file has more than 65536 bytes"),
        (zipped({"packet.json": "[" * 60_000, RECORD: SEEN}), "p.zip/packet.json:1: "),
        (zipped({"packet.json": '{"packet": 1, "packet": 1}', RECORD: SEEN}), "p.zip/packet.json:1: "),
        (zipped({"packet.json": b"\xff\xfe", RECORD: SEEN}), "p.zip/packet.json:1: "),
    ],
)
def test_what_is_no_packet_is_told(data: bytes, line: str) -> None:
    assert any(one.startswith(line) for one in told(data)), told(data)


def test_everything_wrong_is_told_at_once() -> None:
    assert len(told(packet({"../a.yml": "x", "content/a.html": "x"}, made="yesterday"))) == 3


@each_row("line", LINES.values())
def test_who_and_what_for_may_be_anything_that_hides_nothing(line: str) -> None:
    """As a record's own texts may be: what no eye sees is refused."""
    line = line[:120]
    data = packet(by=line, note=line)
    if hidden(line):
        assert all(one.startswith("p.zip/packet.json:") for one in told(data))
    else:
        found = packets.read(data, "p.zip")
        assert (found.by, found.note) == (line, line)


def test_its_schema_says_of_every_place_what_it_is() -> None:
    root = schemas.bundled("packet")
    for at, part in parts({key: value for key, value in root.items() if key != "$defs"}):
        assert part.get("title"), at
        assert part.get("description"), at
        for example in part["examples"]:
            assert not list(Draft202012Validator(part).iter_errors(example)), (at, example)
