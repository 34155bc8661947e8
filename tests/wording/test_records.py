"""Records by name."""

from __future__ import annotations

import pytest

from spanbook.reading.records import Teardown
from spanbook.wording.records import date_words, record_title, seen_title
from tests.support.registers import record

SEEN = (
    "kind: teardown\nid: t\ndate: %s\nseen-by: m\nserial: XA 3\n"
    "condition: untouched\nfound: [{position: a}]\n"
)


@pytest.mark.parametrize(
    ("date", "words"),
    [
        ("2024-05-11", "2024-05-11"),
        ("2019/2021-05", "2019 to 2021-05"),
        ("2019~", "about 2019"),
    ],
)
def test_when_a_machine_was_looked_at(date: str, words: str) -> None:
    """The forms of ISO 8601-1 (an interval) and ISO 8601-2 (about), the marks from memory."""
    made = record(SEEN % date, "teardown", "t")
    assert isinstance(made, Teardown)
    assert date_words(date) == words
    assert record_title(made) == f"XA 3, {words}"
    assert seen_title(made) == f"XA 3, seen {words}"
