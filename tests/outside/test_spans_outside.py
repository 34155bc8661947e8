"""Spans held against data sets that others made for other purposes."""

from __future__ import annotations

import csv
import json
from collections import defaultdict
from datetime import UTC, datetime
from math import inf
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

from spanbook.ground.intervals import Bound, Covers, Span, SpanSet, reach
from tests.support.rows import each_row

DATA = Path(__file__).parent / "data"
LOWEST = -(10**15)  # stands for no lower end, which serial numbers never lack
ALL = SpanSet.run(LOWEST, None)


def _rows(name: str) -> list[dict[str, str]]:
    with (DATA / name).open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


def _by_zone() -> dict[str, list[tuple[Span, str]]]:
    zones = defaultdict(list)
    for row in _rows("01_intervals.csv"):
        first = int(row["start_incl"]) if row["start_incl"] else LOWEST
        last = int(row["end_excl"]) - 1 if row["end_excl"] else None
        zones[row["series"]].append((Span(first, last), row["value_name"]))
    return zones


def test_time_zone_spans_answer_as_the_table_says() -> None:
    """IANA time zone database 2026f, as packaged in PyPI tzdata 2026.6 (public domain).

    Each zone is a series, each span of one local time an assembly; 9 of the 10 come back to an earlier one.
    """
    zones = _by_zone()
    for row in _rows("01_interval_queries.csv"):
        second = int(row["serial"])
        held = [name for span, name in zones[row["series"]] if second in span]
        assert held == [row["expect_name"]], row


def test_time_zone_spans_answer_as_zoneinfo_does() -> None:
    """The same lookups by CPython's zoneinfo over the same tzdata, as an independent reader."""
    zones = _by_zone()
    checked = 0
    for row in _rows("01_interval_queries.csv"):
        second = int(row["serial"])
        if second < 0:  # datetime's own arithmetic covers these, fromtimestamp not on every system
            when = datetime.fromtimestamp(0, UTC).astimezone(UTC)
            when = when.fromtimestamp(second, UTC)
        else:
            when = datetime.fromtimestamp(second, UTC)
        held = [name for span, name in zones[row["series"]] if second in span]
        assert held == [when.astimezone(ZoneInfo(row["series"])).tzname()], row
        checked += 1
    assert checked == 216


@each_row("zone", sorted(_by_zone()))
def test_the_spans_of_a_zone_tile_time(zone: str) -> None:
    """The zones' spans, joined, leave no hole; and no two share a second."""
    spans = [span for span, _ in _by_zone()[zone]]
    assert SpanSet.of(spans) == ALL
    for i, one in enumerate(spans):
        assert all(one.meet(other).empty for other in spans[i + 1 :])


def _tenths(version: str) -> int:
    return round(float(version) * 10)


def _added(text: str) -> Bound:
    if text.startswith("≤"):
        return Bound(LOWEST, _tenths(text[1:]))
    return Bound(_tenths(text), _tenths(text))


def test_at_or_before_bounds_answer_yes_no_and_maybe() -> None:
    """npm @mdn/browser-compat-data 8.1.9 (CC0-1.0); expected answers by npm semver 7.8.6 (ISC).

    `≤12.1` means "by 12.1 at the latest": below it nobody knows. Versions count in tenths here.
    """
    spans = defaultdict(list)
    for row in _rows("01b_spans_le.csv"):
        removed = _tenths(row["removed"]) - 1 if row["removed"] else inf
        spans[row["feature"], row["browser"]].append(
            reach(_added(row["added"]), Bound(removed, removed), ALL)
        )
    words = {"yes": Covers.YES, "no": Covers.NO, "unknown": Covers.MAYBE}
    seen = set()
    for row in _rows("01b_spans_le_queries.csv"):
        covers = {r.covers(_tenths(row["version"])) for r in spans[row["feature"], row["browser"]]}
        best = next(c for c in (Covers.YES, Covers.MAYBE, Covers.NO) if c in covers)
        assert best is words[row["expect"]], row
        seen.add(best)
    assert len(seen) == 3


def _set(runs: list[list[int | None]]) -> SpanSet:
    return SpanSet.of(Span(LOWEST if first is None else first, last) for first, last in runs)


@each_row("case", json.loads((DATA / "03_interval_algebra.json").read_text()))
def test_interval_algebra_over_whole_numbers(case: dict[str, Any]) -> None:
    """Cases computed with PyPI portion 2.6.3 (LGPL-3.0) over discrete intervals, checked by plain sets."""
    a, b = _set(case["a"]), _set(case["b"])
    assert a | b == _set(case["union"])
    assert a & b == _set(case["intersection"])
    assert a - b == _set(case["a_minus_b"])
    assert bool(a & b) is case["overlaps"]
    assert (b <= a) is case["a_contains_b"]
