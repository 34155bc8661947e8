"""What is asked again is computed once."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.memo import Memo


@given(st.lists(st.integers(0, 5)))
def test_each_key_is_computed_once_and_answered_always(asked: list[int]) -> None:
    computed: list[int] = []

    def double(number: int) -> int:
        computed.append(number)
        return 2 * number

    doubled = Memo(double)
    assert [doubled(number) for number in asked] == [2 * number for number in asked]
    assert computed == list(dict.fromkeys(asked))


def test_nothing_found_is_an_answer_too() -> None:
    computed: list[str] = []
    empty: Memo[str, None] = Memo(computed.append)
    assert (empty("a"), empty("a"), computed) == (None, None, ["a"])
