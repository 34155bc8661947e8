"""Sentences in which something is named that a page leads to."""

from __future__ import annotations

import pytest

from spanbook.ground.language import speaking
from spanbook.reading.records import Teardown
from spanbook.wording.pieces import Pieces, Ref, filled, joined, plain
from tests.support.registers import record
from tests.wording.test_records import SEEN

MADE = record(SEEN % "2019", "teardown", "t")
assert isinstance(MADE, Teardown)
A, B, C = (Ref(name, MADE) for name in "abc")


@pytest.mark.parametrize(
    ("named", "pieces"),
    [
        ([], ()),
        ([A], (A,)),
        ([A, B], (A, " and ", B)),
        ([A, (B, "!"), C], (A, ", ", B, "!", " and ", C)),
    ],
)
def test_a_list_keeps_what_it_names(named: list[Ref | Pieces], pieces: Pieces) -> None:
    assert joined(named) == pieces


def test_a_list_is_told_in_another_language() -> None:
    with speaking("de"):
        assert plain(joined([A, B, C], "or")) == "a, b oder c"


def test_a_message_takes_what_it_names_in_its_places() -> None:
    assert filled("{old} is now {new}.", new=A, old=("no ", B)) == ("no ", B, " is now ", A, ".")
    assert filled("{a}{b}", a="", b="x") == ("x",)
