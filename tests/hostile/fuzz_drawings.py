"""Damaged drawings: the check refuses one with a sentence, or lines come out of it."""

from __future__ import annotations

import random

from spanbook.ground.drawings.read import Refused, read
from spanbook.rules.drawings import refusal_words
from spanbook.site.drawings import file_of, lines_of
from tests.hostile.drawings import DRAWINGS
from tests.hostile.fuzz import Fuzzer
from tests.hostile.test_drawings import harmless
from tests.support.drawings import svg

_ALL = (
    '<g transform="translate(9,9) rotate(20 5 5) scale(.9) skewX(3)" fill="none" stroke="black">'
    '<path d="M1 1h9v9l-3-3H4zm9 9C1 2 3 4 5 6S7 8 9 10Q1 2 3 4T5 6A7 8 9 0110 11a1 2 3 1 0 4 5z"/>'
    '<rect x="1" y="2" width="9" height="8" rx="2"/><circle cx="9" cy="9" r="4"/><ellipse rx="3" ry="2"/>'
    '<line x2="9"/><polyline points="0,0 4,0 4,4"/>'
    '<polygon style="fill:#fff;stroke:#000" points="0 0 9 0 9 9"/>'
    "</g><text>x</text>"
)
_SEEDS = [data for make, _ in DRAWINGS.values() if len(data := make()) < 2_000]
_BITS = [
    *(
        b'"',
        b"<",
        b"/>",
        b"&",
        b"e9",
        b"e-9",
        b".",
        b"-",
        b",",
        b"a",
        b"A",
        b"z",
        b"M",
        b"<g>",
        b"</g>",
        b"0",
    ),
    *(b"9" * 9, b"<script/>", b"<!--", b"]]>", b' onload="x"', b"url(//x)", b"\xff", b"\0", b"<use/>"),
]


def _make(chance: random.Random) -> bytes:
    data = bytearray(svg(_ALL) if chance.random() < 0.6 else chance.choice(_SEEDS))
    for _ in range(chance.choice((1, 1, 2, 4, 9))):
        at = chance.randrange(len(data)) if data else 0
        what = chance.randrange(4)
        if what == 0:
            data[at:at] = chance.choice(_BITS)
        elif what == 1:
            del data[at : at + chance.randrange(1, 20)]
        elif what == 2:
            data[at:at] = data[at : at + chance.randrange(1, 60)]
        else:
            data[at : at + 1] = bytes([chance.randrange(256)])
    return bytes(data)


def _judge(case: bytes) -> str:
    try:
        drawing = read(case)
    except Refused as refused:
        said, todo = refusal_words(refused)
        assert said
        assert todo
        return "refused"
    assert harmless(file_of(lines_of(drawing, "a.svg")))
    return "drawn"


FUZZER = Fuzzer(_make, _judge)
