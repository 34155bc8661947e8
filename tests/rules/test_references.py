"""References that lead nowhere, and what to do about them."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.worlds.records import LID


@pytest.mark.parametrize(
    ("source", "todo"),
    [
        ("boook", "did you mean book?"),
        ("tale-of-old", "correct it, or add a record for that source"),
    ],
)
def test_what_is_there_and_alike_is_shown(source: str, todo: str, tmp_path: Path) -> None:
    (problem,) = worlds.check(tmp_path, LID.replace("source: book", f"source: {source}")).problems
    assert (problem.name, problem.read, problem.todo) == (
        "reference-unknown",
        f"there is no source {source}",
        todo,
    )


def test_a_place_that_there_is_not_is_told_once(tmp_path: Path) -> None:
    seen = (
        "# file: content/teardowns/a.yml\nkind: teardown\nid: a\ndate: 2024\nseen-by: m\nserial: XA 7\n"
        "condition: untouched\nfound: [{position: body/covr, assembly: lid}]\n"
    )
    found = worlds.check(tmp_path, LID, seen).problems
    assert [(one.name, one.todo) for one in found] == [("reference-unknown", "did you mean body/cover?")]


def test_an_assembly_that_holds_others_is_told_how_its_places_are_its_own(tmp_path: Path) -> None:
    """Moved to one of the places inside it, as it would be by the first advice alone, it holds nothing."""
    (problem,) = worlds.check(tmp_path, LID.replace("body/cover", "body")).problems
    assert problem.name == "position-not-a-leaf"
    assert problem.todo == (
        "name one of body/cover, body/drain; or, where lid has these places inside it, "
        "write within: [lid] in each of them in positions.yml"
    )


def test_what_was_seen_on_a_group_is_told_its_places_alone(tmp_path: Path) -> None:
    seen = (
        "# file: content/teardowns/a.yml\nkind: teardown\nid: a\ndate: 2024\nseen-by: m\nserial: XA 7\n"
        "condition: untouched\nfound: [{position: body, note: All of it}]\n"
    )
    (problem,) = worlds.check(tmp_path, LID, seen).problems
    assert (problem.name, problem.todo) == ("position-not-a-leaf", "name one of body/cover, body/drain")
