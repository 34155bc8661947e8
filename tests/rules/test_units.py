"""Plates of one machine that cannot both be: common practice of those who keep lists of them, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.rows import each_row

WORLD = """\
# file: content/machines/y.yml
kind: machine
id: y
title: Y
maker: Example Works
series:
- id: ye
  stamped: "E {number}"
  plate: engine
  first: 1
  last: 90
  years: {1931: 1, 1932: 31, 1935: 61}
  evidence: [{source: book}]
- id: yf
  stamped: "F {number}"
  plate: frame
  first: 100
  last: 190
  years: {1932: 100, 1933: 131, 1936: 161}
  evidence: [{source: book}]
- {id: yg, stamped: "G {number}", plate: box, first: 1, last: 9, evidence: [{source: book}]}
# file: content/units/e-5.yml
kind: unit
id: e-5
machine: y
numbers:
"""


def told(folder: Path, *numbers: str) -> list[str]:
    lines = "".join(f"- {{serial: {number}, evidence: [{{source: book}}]}}\n" for number in numbers)
    found = worlds.check(folder, WORLD + lines).problems
    return [one.read for one in found if one.name == "unit-plates-disagree"]


def beside(later: str, issued: int, other: str, by: int) -> str:
    return f"{later}, issued in {issued} at the earliest, beside {other}, issued in {by} at the latest"


@pytest.mark.slow
@each_row(
    ("numbers", "said"),
    [
        (("E 5", "F 110"), []),  # of 1931, in a frame of 1932
        (
            ("E 5", "F 140"),
            [beside("F 140", 1933, "E 5", 1931)],
        ),
        (
            ("F 140", "E 5"),
            [beside("F 140", 1933, "E 5", 1931)],
        ),
        (("E 5", "F 140, years: 1933/.."), []),  # it got the frame later
        (("E 40", "F 165"), [beside("F 165", 1936, "E 40", 1934)]),  # of 1932 to 1934, and later
        (
            ("E 61", "F 110"),
            [beside("E 61", 1935, "F 110", 1932)],
        ),
        (("E 5", "E 65", "F 110"), []),  # numbered anew: the old number tells when it was built
        (("E 5", "G 3"), []),  # nothing dates the box
        (("E 65, years: 1934/..",), ["E 65 borne in 1934, and issued in 1935 at the earliest"]),
        (("E 65, years: ../1933",), ["E 65 borne in 1933, and issued in 1935 at the earliest"]),
        (("E 65, years: 1935/..",), []),
        (("E 5", "E 65, years: 1934"), ["E 65 borne in 1934, and issued in 1935 at the earliest"]),
    ],
)
def test_what_cannot_both_be(tmp_path: Path, numbers: tuple[str, ...], said: list[str]) -> None:
    assert told(tmp_path, *numbers) == said
