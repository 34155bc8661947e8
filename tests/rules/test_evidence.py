"""What statements rest on."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.worlds.records import LID, act

EVIDENCE = {
    "a span without": (
        LID.replace(", evidence: [{source: book}]", ""),
        [("statement-without-evidence", 6, "a span without evidence")],
    ),
    "an act without": (
        act("a", "P", "Q").replace("evidence: [{source: book}]\n", ""),
        [("statement-without-evidence", 1, "a supersession without evidence")],
    ),
    "nothing but what speaks against it": (
        LID.replace("{source: book}", "{source: book, against: true, note: Ends at 19}"),
        [("statement-without-evidence", 6, "a span without evidence")],
    ),
    "against, and nothing says how": (
        LID.replace("{source: book}", "{source: book}, {teardown: x-5-merrin, against: true}"),
        [("against-without-note", 6, "x-5-merrin speaks against it, and nothing says how")],
    ),
    "a source that nobody names": (
        "# file: content/sources/tale.yml\nkind: source\nid: tale\ntitle: T\nclass: recollection\n",
        [("source-unused", 2, "no statement names the source tale")],
    ),
}


@pytest.mark.parametrize(("world", "told"), EVIDENCE.values(), ids=EVIDENCE)
def test_told(world: str, told: list[tuple[str, int, str]], tmp_path: Path) -> None:
    assert worlds.told(tmp_path, world) == sorted(told)
