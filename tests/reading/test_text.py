"""From bytes to text: what is refused, where, and that nothing else is."""

from __future__ import annotations

import traceback
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from spanbook.reading.text import TEXT_HIDDEN, Refusal, hidden, to_text


@given(st.text(st.characters(codec="utf-8"), max_size=20))
@example("a\U000e0100")
def test_a_text_arrives_whole_or_is_refused_at_its_first_hidden_character(text: str) -> None:
    text = text.replace("\r\n", "")
    found = hidden(text)
    if found is None:
        if "\t" not in text and not text.startswith("\ufeff"):
            assert to_text(text.encode()) == text
        return
    if text.startswith("\ufeff"):
        return  # a byte-order mark, told by a rule of its own
    with pytest.raises(Refusal) as refused:
        to_text(text.encode())
    before = text[: found[0]]
    assert refused.value.rule is TEXT_HIDDEN
    assert refused.value.line == before.count("\n") + 1
    assert refused.value.column == len(before.rpartition("\n")[2]) + 1


@contextmanager
def _a_room() -> Iterator[None]:
    yield


def test_a_refusal_travels_like_any_exception() -> None:
    """A context manager sets the traceback of what passes through it, and so may any caller."""
    with pytest.raises(Refusal) as refused, _a_room():
        to_text(b"a\x00")
    told = "".join(traceback.format_exception(refused.value))
    assert "text-hidden at 1:2: an invisible character, U+0000" in told
    assert refused.value.with_traceback(None) is refused.value
