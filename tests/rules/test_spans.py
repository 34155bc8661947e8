"""Spans: their order, their series, and what was issued of them."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID, assembly

SPANS = {
    "in order": (LID, []),
    "about a number near the end of the series": (
        assembly("lid", "xa, first: about 3 ± 10, last: about 98 +- 20"),
        [],
    ),
    "about a number that the series does not have": (
        assembly("lid", "xa, first: 1, last: about 120 ± 30"),
        [("span-out-of-series", 6, "last 120, and the series xa has 1 to 99")],
    ),
    "one number": (assembly("lid", "xa, first: 7, last: 7"), []),
    "the whole series": (assembly("lid", "xa, first: 1, last: 99"), []),
    "its first reversed": (
        assembly("lid", "xa, first: [9, 3], last: 20"),
        [("span-reversed", 6, "a span that runs from 9 back to 3")],
    ),
    "its last reversed": (
        assembly("lid", "xa, first: 1, last: [20, 12]"),
        [("span-reversed", 6, "a span that runs from 20 back to 12")],
    ),
    "reversed is told once, and not as skipped too": (
        assembly("lid", "xa, first: [20, 9], last: [8, 5]"),
        [("span-reversed", 6, "a span that runs from 20 back to 9")],
    ),
    "last before first": (
        assembly("lid", "xa, first: 20, last: [5, 10]"),
        [("span-reversed", 6, "a span that runs from 20 back to 10")],
    ),
    "beyond the series": (
        assembly("lid", "xa, first: 0, last: 20"),
        [("span-out-of-series", 6, "first 0, and the series xa has 1 to 99")],
    ),
    "beyond its end": (
        assembly("lid", "xa, first: 1, last: [99, 100]"),
        [("span-out-of-series", 6, "last 100, and the series xa has 1 to 99")],
    ),
    "before a series without an end": (
        assembly("lid", "xb, first: [99, 105], last: 10000"),
        [("span-out-of-series", 6, "first 99, and the series xb has 100 and up")],
    ),
    "skipped numbers alone": (
        assembly("lid", "xa, first: 41, last: 45"),
        [("span-skipped", 6, "a span over numbers of the series xa that were never issued")],
    ),
    "one skipped number": (
        assembly("lid", "xa, first: 43, last: 43"),
        [("span-skipped", 6, "a span over numbers of the series xa that were never issued")],
    ),
    "one issued number among them": (assembly("lid", "xa, first: 41, last: 46"), []),
    "a series that is not there": (
        assembly("lid", "zz, first: 9, last: 1"),
        [("reference-unknown", 6, "there is no series zz")],
    ),
}


@each_row(("world", "told"), SPANS.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)
