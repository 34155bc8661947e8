"""Why a statement stands as it does, in words, with what a page can lead to."""

from __future__ import annotations

import pytest

from spanbook.answers.reasons import Had, HadNumber, Measured, Reason, SameNumbers, Says, Shown, Weight
from spanbook.answers.standing import Judgement, Standing
from spanbook.ground.language import speaking
from spanbook.reading.records import Assembly, Record, Size, Source, Teardown
from spanbook.wording.pieces import Ref, plain
from spanbook.wording.standings import MEANINGS, STANDINGS, WEIGHTS, reason_words, word_of
from tests.support.registers import lid, record, register

BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")
SEEN = record(
    "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\ncondition: untouched\n"
    "found: [{position: cover, measurements: [{what: depth, number: P, value: 0.5, unit: in}]}]\n",
    "teardown",
    "t",
)
LID = lid("lid", "first: 1, last: 4")


TALE = record("kind: source\nid: tale\ntitle: The tale\nclass: recollection\n", "source", "tale")


def reason(
    weight: Weight,
    by: object = SEEN,
    at: str | None = None,
    shown: Shown | None = None,
    note: str | None = None,
) -> Reason:
    assert isinstance(by, Source | Teardown | Assembly)
    return Reason(weight, by, at, shown, note)


def told(weight: Weight, shown: Shown | None, by: object = SEEN) -> str:
    return plain(reason_words(reason(weight, by, None, shown)))


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
        (Weight.EXPLAINED, had(), "explained by a later change: XA 3, seen 2024, had the lid"),
        (
            Weight.SET_ASIDE,
            had("altered"),
            "not counted: XA 3, seen 2024, had the lid, and its condition is altered",
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
            "not counted: XA 3, seen 2024, measured 0.5 in, which may be wear",
        ),
    ],
)
def test_a_reason_in_a_line(weight: Weight, shown: Shown | None, said: str) -> None:
    assert told(weight, shown) == said


@pytest.mark.parametrize(
    ("weight", "by", "at", "note", "said"),
    [
        (Weight.SEEN, SEEN, None, "the plate is clear", "seen: XA 3, seen 2024: the plate is clear"),
        (Weight.PRINTED, BOOK, "p. 3", "a remark", "printed: The book, p. 3: a remark"),
        (Weight.AGAINST, TALE, None, "it was brass", "against: The tale (from memory): it was brass"),
        (Weight.RECALLED, TALE, None, None, "recalled: The tale"),
    ],
)
def test_what_the_record_remarks_is_said(
    weight: Weight, by: Record, at: str | None, note: str | None, said: str
) -> None:
    assert plain(reason_words(reason(weight, by, at, note=note))) == said


def test_another_claim_on_the_same_run_is_said_with_its_numbers() -> None:
    (fitting,) = register(BOOK, LID).fittings["xa", "cover"]
    words = plain(reason_words(reason(Weight.AGAINST, BOOK, "p. 3", Says(fitting))))
    assert words == "against: The book, p. 3, which says from XA 1 to XA 4"


def test_on_whose_word_and_who_speaks_against() -> None:
    reasons = (reason(Weight.PRINTED, BOOK, "p. 3"), reason(Weight.AGAINST, TALE))
    assert word_of(Judgement(Standing.DISPUTED, reasons)) == (
        "On the word of The book, p. 3. Against it: The tale (from memory)."
    )
    assert word_of(Judgement(Standing.UNSUPPORTED, ())) == "On the word of no evidence named."


def test_another_standard_on_the_same_numbers() -> None:
    assert told(Weight.AGAINST, SameNumbers(), LID) == "against: lid, is recorded on the same numbers"


def test_what_is_named_can_be_followed() -> None:
    assert isinstance(SEEN, Teardown)
    pieces = reason_words(Reason(Weight.SEEN, SEEN, None, None))
    assert pieces == ("seen: ", Ref("XA 3, seen 2024", SEEN))


def test_every_name_has_its_word() -> None:
    assert set(STANDINGS) == set(MEANINGS) == set(Standing)
    assert set(WEIGHTS) == set(Weight)


def test_a_reason_in_german() -> None:
    with speaking("de"):
        assert told(Weight.SET_ASIDE, had("altered")) == (
            "nicht gezählt: XA 3, gesehen 2024, hatte „lid“, Zustand verändert"
        )
        assert told(Weight.SET_ASIDE, Measured(size(), False)) == (
            "nicht gezählt: XA 3, gesehen 2024, gemessen: 0,5 in, was Verschleiß sein kann"
        )
