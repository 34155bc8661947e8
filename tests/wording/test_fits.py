"""What a number has at a position, and on whose word, in words."""

from __future__ import annotations

import pytest

from spanbook.answers.applicability import Fits
from spanbook.answers.readings import read_serial
from spanbook.ground.language import speaking
from spanbook.register.model import Register
from spanbook.wording.fits import fit_on_whose_word, fit_words, segment_words
from tests.support.registers import lid, record, register

BOOK = record("kind: source\nid: book\ntitle: The book\nclass: parts-book\n", "source", "book")
SEEN = record(
    "kind: teardown\nid: t\ndate: 2024\nseen-by: m\nserial: XA 3\nseries: xa\n"
    "condition: untouched\nfound: [{position: cover, assembly: early}]\n",
    "teardown",
    "t",
)


@pytest.fixture(scope="module")
def made() -> Register:
    named = "{source: book, at: p. 3}, {teardown: t}"
    early = lid("early", "first: 1, last: [4, 7]", named)
    return register(BOOK, SEEN, early, lid("late", "first: 6, last: 10, option: true"))


def test_how_sure_and_on_whose_word(made: Register) -> None:
    fits = Fits(made).at(read_serial(made, "XA 7")[0], "cover").fits
    told = {fit.assembly.id: fit for fit in fits}
    assert fit_words(told["late"]) == "surely at the works, to order; from XA 6 to XA 10"
    assert fit_on_whose_word(made, told["late"]).endswith("to XA 10; no evidence is named")
    assert fit_on_whose_word(made, told["early"]) == (
        "possibly at the works; from XA 1 to somewhere between XA 4 and XA 7; "
        "on the word of The book, p. 3 and XA 3, seen 2024"
    )


def test_about_a_number_is_told_as_it_was_recorded() -> None:
    made = register(lid("a", "first: 1, last: about 12 ± 3"))
    (fit,) = Fits(made).at(read_serial(made, "XA 12")[0], "cover").fits
    assert fit_words(fit) == "possibly at the works; from XA 1 to about XA 12, give or take 3"


def test_a_segment_by_name(made: Register) -> None:
    series = made.series["xa"]
    told = {
        number: segment_words(segment)
        for number in (2, 5, 7, 15)
        for segment in Fits(made).segments(series, "cover")
        if number in segment
    }
    assert told == {
        2: "early",
        5: "possibly early",
        7: "late (to order), possibly early",
        15: "nothing known",
    }


def test_how_sure_in_german(made: Register) -> None:
    fits = Fits(made).at(read_serial(made, "XA 7")[0], "cover").fits
    told = {fit.assembly.id: fit for fit in fits}
    with speaking("de"):
        assert fit_words(told["late"]) == "sicher ab Werk, auf Bestellung; von XA 6 bis XA 10"
        assert fit_words(told["early"]) == (
            "vielleicht ab Werk; von XA 1 bis irgendwo zwischen XA 4 und XA 7"
        )
