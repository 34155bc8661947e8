"""Records by name."""

from __future__ import annotations

import pytest

from spanbook.ground.language import speaking
from spanbook.reading.records import Size, Teardown
from spanbook.wording.records import date_words, evidence_sort, record_title, seen_title, size_words
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


def test_records_are_told_in_another_language() -> None:
    made = record(SEEN % "2019/2021-05", "teardown", "t")
    assert isinstance(made, Teardown)
    size = Size(
        what="bore",
        value="0.310",
        to="0.312",
        unit="in",
        number=None,
        read_with="caliper",
        state=None,
        standard=None,
    )
    with speaking("de"):
        assert seen_title(made) == "XA 3, gesehen 2019 bis 2021-05"
        assert evidence_sort(made) == "Zerlegung, unberührt"
        assert size_words(size) == "0,310 in (7,87 mm) bis 0,312 in (7,92 mm); Messschieber"
