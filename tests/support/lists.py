"""Parts lists at random, and a plain reading of them: number by number, trying every place an end may have.

Nothing here is taken from the program: a list is plain values, as they stand in a file.
"""

from __future__ import annotations

import json
import random
from collections.abc import Mapping
from functools import cache
from itertools import combinations, product
from typing import Any

from spanbook.reading.records import Record
from tests.support.registers import record

FIRST, LAST = {"xa": 1, "xb": 15}, {"xa": 20, "xb": 40}
ISSUED = {"xa": [n for n in range(1, 21) if n not in (8, 9)], "xb": list(range(15, 41))}
Values = dict[str, Any]
Says = str  # yes, maybe or no


def random_list(chance: random.Random, names: int = 3) -> list[Values]:
    """The lines of a list: some limited, by several claims at times, some with other numbers."""
    lines: list[Values] = []
    for at in range(chance.randint(2, 7)):
        line: Values = {"number": f"P-{at}", "name": f"Part {chance.randint(1, names)}", "quantity": 2}
        if chance.random() < 0.4:
            line["or"] = [{"number": f"S {at}", "by": "castle-joint"}]
        if chance.random() < 0.7:
            line["serials"] = [_span(chance, f"a{at}-{i}") for i in range(chance.choice([1, 1, 2, 3]))]
        lines.append(line)
    return lines


def _span(chance: random.Random, anchor: str) -> Values:
    series = chance.choice(["xa", "xa", "xa", "xb"])
    low, high = FIRST[series], LAST[series]
    first = chance.randint(low, high)
    last = chance.randint(first, high)
    start = chance.choice([first, [first, min(first + chance.randint(0, 4), last)], "unknown"])
    end = chance.choice([last, [last, min(last + chance.randint(0, 4), high)], "unknown", "open"])
    return {"series": series, "first": start, "last": end, "anchor": anchor}


def listing(lines: list[Values], id_: str = "lid", span: Values | None = None) -> Record:
    """An assembly with a list, on the whole of both series unless a span is given."""
    spans = [span] if span else [{"series": s, "first": FIRST[s], "last": LAST[s]} for s in FIRST]
    held = {
        "kind": "assembly",
        "id": id_,
        "title": id_,
        "position": "cover",
        "serials": spans,
        "parts": lines,
    }
    return record(json.dumps(held), "assembly", id_)


def ends(span: Values) -> list[tuple[int, int]]:
    """Every pair of ends that a span may have."""
    low, high = FIRST[span["series"]], LAST[span["series"]]
    pairs = product(_values(span["first"], low, high), _values(span["last"], low, high))
    return [(first, last) for first, last in pairs if first <= last]


def _values(end: Any, low: int, high: int) -> range:
    if end == "open":
        return range(high, high + 1)
    if end == "unknown":
        return range(low, high + 1)
    first, last = end if isinstance(end, list) else (end, end)
    return range(first, last + 1)


def said(span: Values) -> dict[int, Says]:
    """What one span says of every number of its series."""
    pairs = ends(span)
    found = {}
    for number in ISSUED[span["series"]]:
        inside = sum(first <= number <= last for first, last in pairs)
        found[number] = "yes" if inside == len(pairs) else "maybe" if inside else "no"
    return found


def runs(spans: list[Values]) -> list[list[Values]]:
    """Spans of one series as the runs that they are claims on: those that may have a number in common."""
    found: list[list[Values]] = []
    for span in spans:
        mine = {n for first, last in ends(span) for n in range(first, last + 1)}
        touching = [run for run in found if any(mine & _numbers(one) for one in run)]
        for run in touching:
            found.remove(run)
        found.append([*(one for run in touching for one in run), span])
    return found


def _numbers(span: Values) -> set[int]:
    return {n for first, last in ends(span) for n in range(first, last + 1)}


def on_line(line: Values, series: str, number: int) -> Says:
    """Whether a line is on a number."""
    return _on_line(json.dumps(line), series)[number]


@cache
def _on_line(line: str, series: str) -> dict[int, Says]:
    """Surely where a claim of a run says so and none of it says no, possibly where any says anything else."""
    held = json.loads(line)
    if "serials" not in held:
        return dict.fromkeys(ISSUED[series], "yes")
    told = [
        [said(span) for span in run] for run in runs([s for s in held["serials"] if s["series"] == series])
    ]
    found = {}
    for number in ISSUED[series]:
        says = [{one[number] for one in run} for run in told]
        sure = any("yes" in each and "no" not in each for each in says)
        found[number] = "yes" if sure else "no" if all(each == {"no"} for each in says) else "maybe"
    return found


def places(lines: list[Values]) -> list[list[Values]]:
    """Lines of one name that are limited, in one place unless two are surely on one number."""
    groups: dict[object, list[Values]] = {}
    for at, line in enumerate(lines):
        groups.setdefault(line["name"] if "serials" in line else at, []).append(line)
    found: list[list[Values]] = []
    for group in groups.values():
        both = any(
            on_line(one, series, n) == on_line(other, series, n) == "yes"
            for one, other in combinations(group, 2)
            for series, numbers in ISSUED.items()
            for n in numbers
        )
        found += [[line] for line in group] if both else [group]
    return found


def on_machine(lines: list[Values], series: str, number: int) -> list[Mapping[str, Says]]:
    """What each place has on a number: the lines' own numbers with what is said of them; empty places too."""
    return [
        {line["number"]: says for line in place if (says := on_line(line, series, number)) != "no"}
        for place in places(lines)
    ]
