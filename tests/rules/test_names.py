"""Numbers and names that a reader would take for one another."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.worlds.records import act, assembly, machine, parts

UNCLEAR = "a part number without by, and more than one maker could be meant"
NAMES = {
    "a number under two names": (
        assembly("lid", "xa, first: 1, last: 20", more='parts:\n- {number: "X", name: Bolt}\n')
        + assembly("hat", "xa, first: 21, last: 99", more='parts:\n- {number: "X", name: Screw}\n'),
        [("part-two-names", 8, "X is called Bolt here and Screw elsewhere")],
    ),
    "a number misread": (
        assembly("lid", "xa, first: 1, last: 20", more=parts("X-18", "X-IB", "X-14")),
        [
            ("names-worn-alike", 9, "the numbers X-18 and X-IB differ only in worn twins"),
            ("names-worn-alike", 9, "the names Part X-18 and Part X-IB differ only in worn twins"),
        ],
    ),
    "a number misread, and nobody knows whose it is": (
        machine() + act("a", "X-18", "X-IB").replace(", by: w", ""),
        [
            ("maker-unclear", 3, UNCLEAR),
            ("maker-unclear", 4, UNCLEAR),
            ("names-worn-alike", 4, "the numbers X-18 and X-IB differ only in worn twins"),
        ],
    ),
    "two digits are no misreading": (
        assembly("lid", "xa, first: 1, last: 20", more=parts("WH-1130", "WH-1180")),
        [],
    ),
}


@pytest.mark.parametrize(("world", "told"), NAMES.values(), ids=NAMES)
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)
