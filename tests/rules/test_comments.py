"""Text that a comment swallowed is told, and comments are left alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.rows import each_row
from tests.support.worlds.records import assembly

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
    "title: Lid of the",
    'title: "Lid of the"',
    "title: Lid (large",
)


def world(lines: str) -> str:
    return assembly("lid", "xa, first: 1, last: 20").replace("title: lid", lines)


@pytest.mark.parametrize(("lines", "said"), CUT.items())
def test_text_that_was_cut(lines: str, said: tuple[str, str], tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, world(lines)).problems
    assert (problem.name, problem.read) == ("text-cut", said[0])
    assert problem.todo == f"if it belongs to the text, put all of it in quotes: {said[1]}{END}"


@each_row("lines", KEPT)
def test_a_comment_is_a_comment(lines: str, tmp_path: Path) -> None:
    assert worlds.check(tmp_path, f"{world(lines)}  # looked at again\n").problems == ()


@pytest.mark.parametrize(("longer", "shown"), [(0, "{}"), (1, "{:.200}...")])
def test_of_a_long_comment_the_beginning_is_shown(longer: int, shown: str, tmp_path: Path) -> None:
    comment = "# 3 " + "x" * (196 + longer)
    (problem,) = worlds.check(tmp_path, world(f"title: Pump {comment}")).problems
    assert problem.read == f"“Pump”; what follows on the line, {shown.format(comment)}, is a comment"


@pytest.mark.parametrize(("longer", "written"), [(0, True), (1, False)])
def test_a_long_text_is_not_written_out_to_be_copied(longer: int, written: bool, tmp_path: Path) -> None:
    text = "Pump # 3 " + "x" * (191 + longer)
    (problem,) = worlds.check(tmp_path, world(f"title: {text}")).problems
    shown = f': title: "{text}"' if written else ""
    assert problem.todo == f"if it belongs to the text, put all of it in quotes{shown}{END}"
