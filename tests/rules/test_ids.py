"""Ids, former ids and addresses that two things would share, and whose a part number is."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.worlds.records import LID, act, assembly, machine, parts


def test_what_a_record_is_called_is_no_former_name_of_it(tmp_path: Path) -> None:
    world = LID.replace("title: lid", "title: lid\nformerly: [lid]")
    assert worlds.told(tmp_path, world) == [
        ("former-id-taken", 4, "the former id lid, which content/assemblies/lid.yml has")
    ]


@pytest.mark.parametrize(
    ("world", "address", "todo"),
    [
        (assembly("lid", "xa, first: 1, last: 9", "xa, first: 11, last: 20"), "span-xa", "give it an anchor"),
        (
            LID + parts("L-1", "L-1"),
            "part-l-1",
            "make one line of the two, with the quantities added; "
            "if they are limited to other serial numbers, give one an anchor",
        ),
        (
            "# file: content/parts/bolt.yml\nkind: part\nid: bolt\nnumber: L-1\nname: Bolt\nsizes:\n"
            + 2 * "- {what: length, value: 9, unit: mm}\n",
            "size-length",
            "say in other words what was measured",
        ),
    ],
)
def test_two_statements_with_one_address(world: str, address: str, todo: str, tmp_path: Path) -> None:
    (problem,) = (p for p in worlds.check(tmp_path, world).problems if p.name == "anchor-twice")
    assert (problem.read, problem.todo) == (f"a second statement with the address #{address}", todo)


def test_which_maker_it_may_be_is_shown(tmp_path: Path) -> None:
    world = machine() + act("a", "P", "Q").replace(", by: w", "")
    todos = {p.todo for p in worlds.check(tmp_path, world).problems if p.name == "maker-unclear"}
    assert todos == {"add by with the maker's id, for example by: example-works"}
