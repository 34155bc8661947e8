"""Acts by which numbers replace one another."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID, act, assembly, conversion

ACTS = {
    "a chain": (act("a", "P", "Q", "year: 1931\n") + act("b", "Q", "R", "year: 1931\n"), []),
    "replaced by what it replaces": (
        act("a", "P", "Q") + act("b", "Q", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3, Q by content/supersessions/b.yml:3, and so back to P",
            )
        ],
    ),
    "replaced in the end by what began it": (
        act("a", "P", "Q") + act("b", "Q", "R") + act("c", "R", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3, Q by content/supersessions/b.yml:3, "
                "R by content/supersessions/c.yml:3, and so back to P",
            )
        ],
    ),
    "replaced by itself and another": (
        act("a", "P S", "Q P") + assembly("lid", "xa, first: 1, last: 20", more=""),
        [("supersession-same", 4, "P replaced by itself")],
    ),
    "replaced by what was replaced before": (
        act("a", "P", "Q", "year: 1933\n") + act("b", "Q", "R", "year: 1931\n"),
        [("superseded-by-older", 4, "in 1933 replaced by Q, which was itself replaced in 1931")],
    ),
    "in years that nobody knows": (act("a", "P", "Q") + act("b", "Q", "R", "year: 1931\n"), []),
    "in a later year that nobody knows": (act("a", "P", "Q", "year: 1933\n") + act("b", "Q", "R"), []),
    "split into what nobody uses": (
        act("a", "P", "Q R"),
        [("split-unused", 4, "a split into Q and R, which nothing uses")],
    ),
    "split, one of them in a parts list": (
        act("a", "P", "Q R")
        + assembly("lid", "xa, first: 1, last: 20", more='parts:\n- {number: "R", by: w, name: R}\n'),
        [],
    ),
    "split, one of them a whole assembly's": (
        act("a", "P", "Q R").replace(", by: w", "") + LID.replace("title: lid", "title: lid\nnumber: R"),
        [],
    ),
    "split, one of them described": (
        act("a", "P", "Q R")
        + "# file: content/parts/r.yml\nkind: part\nid: r\nnumber: R\nby: w\nname: R\n"
        + "evidence: [{source: book}]\n",
        [],
    ),
    "split, one of them put on by a kit": (
        act("a", "P", "Q R")
        + assembly("lid", "xa, first: 1, last: 20")
        + assembly("hat", "xa, first: 1, last: 20, fitted: field")
        + conversion("lid", "hat", "adds: [{number: R, by: w}]\n"),
        [],
    ),
    "split, one of them replaced again": (act("a", "P", "Q R") + act("b", "R", "S"), []),
    "no longer supplied": (act("a", "P", ""), []),
    "withdrawn and brought back": (
        act("a", "P", "Q", "year: 1934\n") + act("b", "Q", "P", "year: 1937\n"),
        [],
    ),
    "given again after it was brought back": (
        act("a", "P", "Q", "year: 1934\n")
        + act("b", "Q", "P", "year: 1937\n")
        + act("c", "R", "P", "year: 1938\n"),
        [],
    ),
    "given again before it was brought back": (
        act("a", "P", "Q", "year: 1934\n")
        + act("b", "Q", "P", "year: 1937\n")
        + act("c", "R", "P", "year: 1936\n"),
        [("superseded-by-older", 4, "in 1936 replaced by P, which was itself replaced in 1934")],
    ),
    "to and fro in one year": (
        act("a", "P", "Q", "year: 1934\n") + act("b", "Q", "P", "year: 1934\n"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3 in 1934, Q by content/supersessions/b.yml:3 in 1934, "
                "and so back to P",
            )
        ],
    ),
    "brought back in no year that is told": (
        act("a", "P", "Q", "year: 1934\n") + act("b", "Q", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3 in 1934, Q by content/supersessions/b.yml:3, "
                "and so back to P",
            )
        ],
    ),
    "brought back for some machines, and by another in no year": (
        act("a", "P", "Q", "year: 1934\n")
        + act("b", "Q", "P", "year: 1937\nserials: [{series: xa, first: 1, last: 4}]\n")
        + act("c", "Q", "P"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3 in 1934, Q by content/supersessions/c.yml:3, "
                "and so back to P",
            )
        ],
    ),
    "perhaps brought back for every machine, and by another in no year": (
        act("a", "P", "Q", "year: 1934\n")
        + act("b", "Q", "P", "year: 1937\nserials: [{series: xa, first: 1, last: [1, 20]}]\n")
        + act("c", "Q", "P", "serials: [{series: xa, first: 5, last: 6}]\n"),
        [
            (
                "supersession-cycle",
                3,
                "P by content/supersessions/a.yml:3 in 1934, Q by content/supersessions/c.yml:3, "
                "and so back to P",
            )
        ],
    ),
    "supplied again": (
        act("a", "P", "", "year: 1934\n") + act("b", "P", "", "again: true\nyear: 1936\n"),
        [],
    ),
    "supplied again in no year": (
        act("a", "P", "", "year: 1934\n") + act("b", "P", "", "again: true\n"),
        [
            (
                "again-without-before",
                3,
                "P supplied again in no year that is told, and no act of an earlier year on it",
            )
        ],
    ),
}


@each_row(("world", "told"), ACTS.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)


def test_a_cycle_is_told_at_the_act_it_begins_with(tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, act("b", "P", "Q"), act("a", "Q", "P")).problems
    assert problem.read.startswith("Q by content/supersessions/a.yml:3, P by content/supersessions/b.yml:3")
    assert problem.place.path == "content/supersessions/a.yml"
