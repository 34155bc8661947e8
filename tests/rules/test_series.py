"""Series: their order, what they skip, their years and their stamps."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import machine

SERIES = {
    "a sound one": (machine(skipped="[[1, 2], [80, 90]]", years="{1931: 1, 1932: 1, 1933: 90}"), []),
    "one number": (machine(first="5", last="5"), []),
    "reversed": (machine(first="91"), [("series-reversed", 6, "a series from 91 back to 90")]),
    "one number skipped, and the first and the last": (machine(skipped="[[5, 5], [1, 1], [90, 90]]"), []),
    "skipped before it": (
        machine(first="2", skipped="[[1, 3]]"),
        [("skipped-out-of-series", 6, "skipped 1 to 3 in a series of 2 to 90")],
    ),
    "skipped past it": (
        machine(skipped="[[3, 4], [88, 91]]"),
        [("skipped-out-of-series", 6, "skipped 88 to 91 in a series of 1 to 90")],
    ),
    "skipped far on in one without an end": (machine(last="unknown", skipped="[[900, 901]]"), []),
    "skipped backwards in one without an end": (
        machine(last="unknown", skipped="[[9, 8]]"),
        [("skipped-out-of-series", 6, "skipped 9 to 8 in a series of 1 to unknown")],
    ),
    "a year before the one before": (
        machine(years="{1931: 5, 1932: 4, 1933: 4}"),
        [("years-out-of-order", 6, "1932 begins at 4, and the year before it at 5")],
    ),
    "a year below the series": (
        machine(first="2", years="{1931: 1, 1932: 2}"),
        [("year-out-of-series", 6, "1931 begins at 1, outside the series")],
    ),
    "a year above it": (
        machine(years="{1931: 90, 1932: 91}"),
        [("year-out-of-series", 6, "1932 begins at 91, outside the series")],
    ),
    "a year far on in one without an end": (machine(last="unknown", years="{1931: 900}"), []),
    "stamped alike with numbers in common": (
        machine(stamped='"x-A {number}"', first="90", last="100"),
        [("stamp-clash", 6, "za is stamped like xa and has numbers in common with it")],
    ),
    "stamped alike without": (machine(stamped='"XA {number}"', first="100", last="200"), []),
    "stamped alike, in common only what was never issued": (
        machine(stamped='"XA {number}"', first="41", last="45"),
        [],
    ),
    "another suffix": (machine(stamped='"XA {number} B"'), []),
}


@each_row(("world", "told"), SERIES.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)
