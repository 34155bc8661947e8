"""Text that a comment swallowed is told, and comments are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.rules.test_told import assembly
from tests.support import worlds

END = ". A comment stands two blanks off"
CUT = {
    "title: Pump # 3": ("“Pump”; what follows on the line, # 3, is a comment", 'title: "Pump # 3"'),
    "title: Pump #3 (large)": (
        "“Pump”; what follows on the line, #3 (large), is a comment",
        'title: "Pump #3 (large)"',
    ),
    "title: Pump (see # B)": (
        "“Pump (see”; what follows on the line, # B), is a comment",
        'title: "Pump (see # B)"',
    ),
    "title: Pump No. # B": (
        "“Pump No.”; what follows on the line, # B, is a comment",
        'title: "Pump No. # B"',
    ),
    "title: Lid\nnumber: WH # 1180": (
        "“WH”; what follows on the line, # 1180, is a comment",
        'number: "WH # 1180"',
    ),
    "title: Lid\ntell:\n- Cast with # 3 on it": (
        "“Cast with”; what follows on the line, # 3 on it, is a comment",
        '"Cast with # 3 on it"',
    ),
}
KEPT = (
    'title: "Pump # 3"',
    "title: 'Pump # 3' # 3 of them",
    "title: Pump  # 3 of them",
    "title: Pump # to be measured",
    "title: Pump (large) # as the book has it",
    "title: Pump#3",
    "title: Piano # or organ",
    "title: Lid  # No. 3\nnotes: |\n  A list\n\n  # 3 pages",
    "title: Lid # the 3rd",
)


def world(lines: str) -> str:
    return assembly("lid", "xa, first: 1, last: 20 # 3").replace("title: lid", lines).replace(" # 3,", ",")


@pytest.mark.parametrize(("lines", "said"), CUT.items())
def test_text_that_was_cut(lines: str, said: tuple[str, str], tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, world(lines)).problems
    assert (problem.name, problem.read) == ("text-cut", said[0])
    assert problem.todo == f"if it belongs to the text, put all of it in quotes: {said[1]}{END}"


@pytest.mark.parametrize("lines", KEPT)
def test_a_comment_is_a_comment(lines: str, tmp_path: Path) -> None:
    assert worlds.check(tmp_path, world(lines)).problems == ()
