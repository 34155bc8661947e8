"""Why a statement stands as it does, in words, with what a page can lead to."""

from __future__ import annotations

import pytest

from spanbook.answers.reasons import Had, HadNumber, Measured, Noted, Reason, SameNumbers, Shown, Weight
from spanbook.answers.standing import Standing
from spanbook.reading.records import Assembly, Size, Source, Teardown
from spanbook.wording.pieces import Ref, plain
from spanbook.wording.standings import MEANINGS, STANDINGS, WEIGHTS, reason_words
from tests.support.registers import lid, record

BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")
SEEN = record(
    "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
    "found: [{position: cover, measurements: [{what: depth, number: P, value: 0.5, unit: in}]}]\n",
    "teardown",
    "t",
)
LID = lid("lid", "first: 1, last: 4")


def told(weight: Weight, shown: Shown | None, by: object = SEEN, at: str | None = None) -> str:
    assert isinstance(by, Source | Teardown | Assembly)
    return plain(reason_words(Reason(weight, by, at, shown)))


def size() -> Size:
    assert isinstance(SEEN, Teardown)
    return SEEN.found[0].measurements[0]


def had(condition: str | None = None) -> Had:
    assert isinstance(LID, Assembly)
    return Had(LID, condition)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("weight", "shown", "said"),
    [
        (Weight.SEEN, None, "seen: XA 3, seen 2024"),
        (Weight.SEEN, Noted("the plate is clear"), "seen: XA 3, seen 2024, the plate is clear"),
        (Weight.EXPLAINED, had(), "explained: XA 3, seen 2024, had the lid"),
        (
            Weight.SET_ASIDE,
            had("altered"),
            "set aside: XA 3, seen 2024, had the lid, and its condition is altered",
        ),
        (
            Weight.SEEN,
            HadNumber("P-1", "untouched"),
            "seen: XA 3, seen 2024, read P-1 on it; condition untouched",
        ),
        (Weight.SEEN, Measured(size(), True), "seen: XA 3, seen 2024, measured 0.5 in"),
        (
            Weight.SET_ASIDE,
            Measured(size(), False),
            "set aside: XA 3, seen 2024, measured 0.5 in, which may be wear",
        ),
    ],
)
def test_a_reason_in_a_line(weight: Weight, shown: Shown | None, said: str) -> None:
    assert told(weight, shown) == said


def test_what_is_printed_is_named_with_its_page_alone() -> None:
    assert told(Weight.PRINTED, Noted("a remark"), BOOK, "p. 3") == "printed: The book, p. 3"


def test_another_standard_on_the_same_numbers() -> None:
    assert told(Weight.AGAINST, SameNumbers(), LID) == "against: lid, is recorded on the same numbers"


def test_what_is_named_can_be_followed() -> None:
    assert isinstance(SEEN, Teardown)
    pieces = reason_words(Reason(Weight.SEEN, SEEN, None, None))
    assert pieces == ("seen: ", Ref("XA 3, seen 2024", SEEN))


def test_every_name_has_its_word() -> None:
    assert set(STANDINGS) == set(MEANINGS) == set(Standing)
    assert set(WEIGHTS) == set(Weight)
