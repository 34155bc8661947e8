"""What a position holds along a series: conflicts, holes, and options without a standard."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import LID, assembly

LIST = "# file: content/sources/list.yml\nkind: source\nid: list\ntitle: L\nclass: ledger\n"
COVERAGE = {
    "one after the other": (LID + assembly("hat", "xa, first: 21, last: 99"), []),
    "two standards on one number": (
        LID
        + assembly("hat", "xa, first: 20, last: 99")
        + assembly("zinc-lid", "xa, first: 1, last: 99, option: true"),
        [("standards-conflict", 6, "hat and lid are both surely on XA 20 to XA 20 at body/cover")],
    ),
    "two standards by two sources": (
        LID + assembly("hat", "xa, first: 20, last: 99").replace("book", "list") + LIST,
        [],
    ),
    "two standards, of which one names nobody": (
        LID + assembly("hat", "xa, first: 20, last: 99").replace(", evidence: [{source: book}]", ""),
        [
            ("standards-conflict", 6, "hat and lid are both surely on XA 20 to XA 20 at body/cover"),
            ("statement-without-evidence", 6, "a span without evidence"),
        ],
    ),
    "a third from one of the two sources": (
        LID
        + assembly("hat", "xa, first: 20, last: 99").replace("book", "list")
        + assembly("cap", "xa, first: 20, last: 20").replace("book", "list")
        + LIST,
        [("standards-conflict", 6, "cap and hat are both surely on XA 20 to XA 20 at body/cover")],
    ),
    "one of two claims against what the same source says elsewhere": (
        assembly("lid", "xa, first: 1, last: 20", "xa, first: 1, last: 30, anchor: b").replace(
            "b, evidence: [{source: book}]", "b, evidence: [{source: list}]"
        )
        + assembly("hat", "xa, first: 21, last: 99")
        + LIST,
        [],
    ),
    "two standards, and a third that may be there": (
        LID
        + assembly("hat", "xa, first: 20, last: 99")
        + assembly("cap", "xa, first: [19, 21], last: [19, 21]"),
        [("standards-conflict", 6, "hat and lid are both surely on XA 20 to XA 20 at body/cover")],
    ),
    "two standards without an end": (
        assembly("lid", "xb, first: 100, last: open") + assembly("hat", "xb, first: 150, last: open"),
        [("standards-conflict", 6, "hat and lid are both surely on 0150B on at body/cover")],
    ),
    "possibly both": (LID + assembly("hat", "xa, first: [15, 21], last: 99"), []),
    "an option beside it, and one fitted later": (
        LID
        + assembly("hat", "xa, first: 5, last: 20, option: true")
        + assembly("cap", "xa, first: 1, last: 20, fitted: field"),
        [],
    ),
    "a hole": (
        LID + assembly("hat", "xa, first: 31, last: 99"),
        [("span-hole", 6, "nothing is recorded for XA 21 to XA 30, between lid and hat")],
    ),
    "a hole that nothing was issued in": (
        assembly("lid", "xa, first: 1, last: 40") + assembly("hat", "xa, first: 46, last: 99"),
        [],
    ),
    "nothing before and after is no hole": (assembly("lid", "xa, first: 30, last: 31"), []),
    "an option alone": (
        assembly("lid", "xa, first: 6, last: 20, option: true"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 6")],
    ),
    "an option beside one that was fitted later": (
        assembly("lid", "xa, first: 6, last: 20, option: true")
        + assembly("cap", "xa, first: 1, last: 20, fitted: field"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 6")],
    ),
    "an option longer than the standard": (
        LID + assembly("hat", "xa, first: 5, last: 21, option: true"),
        [("option-without-standard", 6, "an option, and no standard assembly is recorded from XA 21")],
    ),
    "an option beside what is possibly there": (
        assembly("lid", "xa, first: 1, last: [10, 20]")
        + assembly("hat", "xa, first: 5, last: 20, option: true"),
        [],
    ),
}


@each_row(("world", "told"), COVERAGE.values())
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)


def test_of_three_standards_the_last_is_where_a_conflict_is_told(tmp_path: Path) -> None:
    three = "".join(assembly(id_, "xa, first: 1, last: 20") for id_ in ("lid", "hat", "cap"))
    (problem,) = worlds.check(tmp_path, three).problems
    assert problem.read.startswith("cap and hat and lid are both surely on XA 1 to XA 20")
    assert problem.place.path == "content/assemblies/lid.yml"
