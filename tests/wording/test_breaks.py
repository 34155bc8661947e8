"""Where production changed, in words, in a series of twenty numbers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from spanbook.answers.applicability import Fits
from spanbook.answers.breaks import Break, NotCounted, breaks_at
from spanbook.answers.changepoint import EvenRun, Look, Rates, Weights
from spanbook.ground.intervals import Run
from spanbook.ground.language import speaking
from spanbook.reading.records import Record
from spanbook.wording.breaks import (
    NOT_COUNTED,
    break_words,
    claim_words,
    look_words,
    next_words,
    none_words,
    printed_words,
    share_words,
    unused_words,
    worked_words,
)
from spanbook.wording.pieces import plain
from tests.support.registers import lid, record, register

ASSUMED = (
    "Assumed: of a hundred machines 10 were converted and 3 went back; of a hundred untouched ones 1 and 1."
)


def seen(serial: int, assembly: str, condition: str = "untouched") -> Record:
    text = (
        f"kind: teardown\nid: t{serial}\ndate: 2024\nseen-by: m\nserial: XA {serial}\nseries: xa\n"
        f"condition: {condition}\nfound: [{{position: cover, assembly: {assembly}}}]\n"
    )
    return record(text, "teardown", f"t{serial}")


def one(*teardowns: Record, rates: Rates | None = None) -> Break:
    early, late = lid("early", "first: 1, last: [4, 7]"), lid("late", "first: [5, 8], last: 20")
    made = register(early, late, *teardowns)
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], rates or Rates())
    return found


def test_what_is_only_printed_says_so() -> None:
    told = list(break_words(one()))
    assert told[0] == "No teardown bears on it yet: the printed bounds are all there is."
    assert told[1] == "With nine chances in ten the first late is XA 5 to XA 7."
    assert told[2].startswith("The machine to look at next is ")
    worked = list(worked_words(one()))
    assert worked[0] == "Most probable: XA 5 to XA 7."
    assert worked[-1] == ASSUMED


def test_teardowns_are_counted() -> None:
    assert next(break_words(one(seen(5, "early")))) == "1 teardown bears on it."
    assert next(break_words(one(seen(5, "early"), seen(7, "late")))) == "2 teardowns bear on it."


def test_what_cannot_be_is_all_that_is_said() -> None:
    never = Rates(Fraction(0), Fraction(0), Fraction(0), Fraction(0))
    told = break_words(one(seen(5, "late"), seen(7, "early"), rates=never))
    assert list(worked_words(one(seen(5, "late"), seen(7, "early"), rates=never))) == []
    assert list(told) == [
        "What was seen cannot all be true if no machine is ever changed: look again at these machines."
    ]


def test_the_picture_says_what_its_marks_are() -> None:
    found = one(seen(5, "early"))
    assert look_words(found.report.observations[0], found) == "XA 5 had the early"
    assert share_words(EvenRun(5, 6, Fraction(1, 4)), found.series) == "XA 5 to XA 6: 50.0 % in all"


def test_what_does_not_count_says_why() -> None:
    (unused,) = one(seen(5, "early", "altered")).unused
    assert unused_words(unused) == "XA 5: the machine was altered there"
    assert set(NOT_COUNTED) == set(NotCounted)


def span(end: str, *sources: str) -> str:
    told = ", ".join(f"{{source: {id_}}}" for id_ in sources)
    return f"- {{series: xa, {end}, anchor: a{abs(hash(end))}{f', evidence: [{told}]' if told else ''}}}\n"


def disagreeing(*teardowns: Record, whose: str = "tale", weights: Weights | None = None) -> Break:
    """The book has the first late at 6, and whoever else at 13."""
    sources = [
        record(f"kind: source\nid: {id_}\ntitle: The {id_}\nclass: {sort}\n", "source", id_)
        for id_, sort in (("book", "parts-book"), ("tale", "recollection"))
    ]
    other = [whose] if whose else []
    ends = [
        ("early", "first: 1, last: 5", "first: 1, last: 12"),
        ("late", "first: 6, last: 20", "first: 13, last: 20"),
    ]
    pair = [
        record(
            f"kind: assembly\nid: {id_}\ntitle: {id_}\nposition: cover\nserials:\n"
            + span(book, "book")
            + span(tale, *other),
            "assembly",
            id_,
        )
        for id_, book, tale in ends
    ]
    made = register(*sources, *pair, *teardowns)
    (found,) = breaks_at(Fits(made), "cover", made.series["xa"], Rates(), *([weights] if weights else []))
    return found


def claims_told(found: Break) -> list[str]:
    assert found.report.none
    told = [plain(claim_words(found, claim, share)) for claim, share in found.disagreeing]
    return [*told, none_words(found, found.report.none)]


def test_claims_that_disagree_are_told_with_what_they_weigh() -> None:
    found = disagreeing()
    assert printed_words(found) == (
        "What is printed of it disagrees. Nothing is picked: each claim counts by its weight."
    )
    assert claims_told(found) == [
        "XA 6, The book: 76 %",
        "XA 13, The tale: 19 %",
        "None of them, somewhere from XA 2 to XA 20: 5 %",
    ]
    assert list(worked_words(found))[-1] == (
        "Weights beside one another (our own guess, which a community can set): parts book 4, "
        "recollection 1; none of them 5 in a hundred."
    )
    assert printed_words(one()) == "Printed: somewhere from XA 5 to XA 8."
    assert list(worked_words(one()))[-1] == ASSUMED


def test_what_teardowns_make_of_the_claims_is_told() -> None:
    told = claims_told(disagreeing(seen(10, "early"), seen(12, "early")))
    assert told[0] == "XA 6, The book: 76 % before teardowns, less than 1 % now"
    assert told[1].endswith("19 % before teardowns, 89 % now")


def test_a_claim_of_nobody_is_told_as_that() -> None:
    own = Weights({"parts-book": Fraction(3), "manual": Fraction(3, 2)}, Fraction(0))
    found = disagreeing(whose="", weights=own)
    assert claims_told(found)[1] == "XA 13, and nobody is named: 33 %"
    assert list(worked_words(found))[-1] == (
        "Weights beside one another (set by this community): parts book 3, nobody's word 1.5; "
        "none of them 0 in a hundred."
    )


def test_what_speaks_against_the_picture_is_told_first_with_its_figures() -> None:
    """Three untouched machines the wrong way round. Wherever the break is, one in a hundred each: the least
    strange place, 5, has the late one at 4 before it and the early ones at 10 and 12 after it, all three
    wrong: one in a million. The other way round they are 99³ times as probable as at 5, 6 or 7."""
    turned = (seen(4, "late"), seen(10, "early"), seen(12, "early"))
    told = list(break_words(one(*turned)))
    assert told[1] == (
        "Take this with care: wherever the break is put, 3 machines are on its wrong side, and as many or "
        "more would be there in 0.0001 % of cases by the rates assumed (told below 1 %)."
    )
    assert told[2] == (
        "Take this with care: what was seen is 970299 times as probable if the late came before the early "
        "(told from 10 times on)."
    )
    right = (seen(4, "early"), seen(10, "late"), seen(12, "late"))
    assert not any("with care" in words for words in break_words(one(*right)))


def test_rates_as_ranges_are_told_with_what_depends_on_them() -> None:
    ranges = replace(Rates(), upto=replace(Rates(), converted=Fraction(3, 10)))
    told = list(worked_words(one(seen(6, "late", "likely-original"), rates=ranges)))
    assert told[-1] == (
        "Assumed: of a hundred machines 10 to 30 were converted and 3 went back; of a hundred untouched ones "
        "1 and 1. Anywhere in a range is equally likely."
    )
    assert (
        "So much it depends on the rates: with the lowest XA 5 to XA 6; with the highest XA 5 to XA 7."
        in told
    )


def test_one_number_that_would_be_left_is_one() -> None:
    for width, left in ((0.4, "1 number"), (1.4, "1 number"), (1.6, "2 numbers")):
        told = next_words(Look(Run(5, 5), 0.5, width), one().series)
        assert told.endswith(f"untouched, it would leave about {left}.")


def test_a_break_in_german() -> None:
    with speaking("de"):
        assert next(break_words(one(seen(5, "early")))) == "1 Zerlegung sagt etwas dazu."
        assert next(break_words(one(seen(5, "early"), seen(7, "late")))) == "2 Zerlegungen sagen etwas dazu."
        assert next(iter(worked_words(one()))) == "Am wahrscheinlichsten: XA 5 bis XA 7."
        assert claims_told(disagreeing())[0] == "XA 6, The book: 76 %"
        assert list(worked_words(disagreeing()))[-1] == (
            "Gewichte nebeneinander (unsere eigene Schätzung, die eine Gemeinschaft ändern kann): "
            "Teilebuch 4, Erinnerung 1; keine davon 5 von hundert."
        )
