"""How far a series ran, in words; each figure worked by hand."""

from __future__ import annotations

from spanbook.answers.totals import total
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import speaking
from spanbook.wording.totals import none_seen_words, total_words
from tests.support.registers import register

(SERIES, _) = register().series.values()  # XA 1 to XA 20


def told(*seen: int) -> list[str]:
    return list(total_words(total(seen, SpanSet.run(1, None)), SERIES))


def test_one_number_tells_a_lower_end() -> None:
    assert told(5) == [
        "1 number was seen, the highest XA 5.",
        "Exact 95 % interval: XA 5 to XA 199.",
        "One number tells how high the series ran at the least, and no more.",
        "Blocks that were allotted and never used would make this too high.",
    ]


def test_of_two_numbers_the_median_is_told_because_no_mean_exists() -> None:
    """Seen: 5 and 10. The flat posterior has P(last > n) = 9/n, so n = 18 is the first with half below it;
    the sum of n times its probability has no end. The estimate is 10 × 3/2 − 1 = 14, and
    90/N(N − 1), the chance of a highest of 10 or less among N, is above 1/40 up to 60."""
    assert told(5, 10) == [
        "2 numbers were seen, the highest XA 10.",
        "From these alone the highest number issued is estimated at XA 14.",
        "Exact 95 % interval: XA 10 to XA 60.",
        "Two numbers give no mean: as likely as not the series ended at XA 18 or before.",
        "Blocks that were allotted and never used would make this too high.",
    ]


def test_more_numbers_need_no_excuse() -> None:
    """Seen 5, 10 and 12: P(last > n) = (11 × 10) / (n (n − 1)) is 110/210 at 15 and 110/240 at 16."""
    assert told(5, 10, 12)[3:] == [
        "As likely as not the series ended at XA 16 or before.",
        "Blocks that were allotted and never used would make this too high.",
    ]


def test_nothing_seen_tells_nothing() -> None:
    assert none_seen_words(SERIES) == "No number of XA … was seen: nothing tells how far it ran."


def test_how_far_in_german() -> None:
    with speaking("de"):
        assert told(5)[:2] == [
            "1 Nummer wurde gesehen, die höchste XA 5.",
            "Exaktes 95-%-Intervall: XA 5 bis XA 199.",
        ]
        assert told(5, 10)[0] == "2 Nummern wurden gesehen, die höchste XA 10."
