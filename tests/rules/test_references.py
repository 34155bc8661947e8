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
