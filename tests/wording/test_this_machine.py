"""What is said of one very machine: the odds, the standing, what was seen, what may have come later."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.this_machine import ThisMachine, ThisPosition
from spanbook.ground.language import speaking
from spanbook.ground.years import Part, Years
from spanbook.reading.records import Record
from spanbook.register.model import Register
from spanbook.wording import this_machine
from spanbook.wording.odds import odds_words, percent
from spanbook.wording.pieces import plain
from spanbook.wording.this_machine import (
    looks,
    sections,
    short_words,
    this_position_words,
)
from spanbook.wording.which_machine import machine_words, this_machine_words
from tests.support.machines import answers, machine_of, seen
from tests.support.registers import lid, record, register
from tests.support.rows import each_row


def of(serial: str, *records: Record) -> tuple[Register, ThisMachine, ThisPosition]:
    made = answers(*records)
    found = machine_of(made, serial)
    return made.register, found, next(place for place in found.positions if place.position == "cover")


def told(serial: str, *records: Record) -> dict[str, list[str]]:
    register, _, place = of(serial, *records)
    return {heading: [plain(line) for line in lines] for heading, lines in sections(register, place)}


def looked(serial: str, *records: Record) -> list[str]:
    register, found, _ = of(serial, *records)
    return [plain(line) for line in looks(register, found)]


def short(serial: str, *records: Record) -> str:
    register, _, place = of(serial, *records)
    return short_words(register, place)


def badge(serial: str, *records: Record) -> str:
    register, _, place = of(serial, *records)
    return this_position_words(register, place)


def test_which_machine_it_is() -> None:
    register, found, _ = of("XA 2")
    assert machine_words(register.machines["x"], Years(1931, 1931)) == "{}, X. Built 1931."
    assert machine_words(register.machines["x"], None) == "{}, X. The year is not known."
    assert this_machine_words(register, found.reading) == "XA 2, X. The year is not known."


def test_left_the_works_with() -> None:
    word = "from XA 1 to somewhere between XA 4 and XA 7; on the word of The book, p. 3"
    assert told("XA 2")["Left the works with"] == [f"early: surely, printed; {word}"]
    first, second = told("XA 5")["Left the works with"]
    assert first == f"early: possibly, printed; {word}"
    assert second.startswith("late: possibly, printed; from somewhere between")
    assert told("XA 17")["Left the works with"] == ["Nobody knows yet."]
    assert told("XA 20")["Left the works with"] == [
        "far: surely, no evidence; XA 20 only; no evidence is named"
    ]


def test_what_is_disputed_is_never_called_sure() -> None:
    for against in (seen("t", "XA 3", "far"), lid("both", "first: 1, last: 3")):
        for line in told("XA 2", against)["Left the works with"]:
            assert "surely" not in line
            assert "disputed by " in line
    (line,) = told("XA 2", seen("t", "XA 3", "far"))["Left the works with"]
    assert line.startswith("early: disputed by XA 3, seen 2024; from XA 1")
    many = [seen(f"t{i}", "XA 3", "far") for i in range(4)]
    (line,) = told("XA 2", *many)["Left the works with"]
    assert line.startswith("early: disputed by XA 3, seen 2024, XA 3, seen 2024 and 2 more; from")
    possibly = told("XA 5", seen("t", "XA 3", "far"))["Left the works with"]
    assert possibly[0].startswith("early: possibly, disputed by XA 3, seen 2024; ")


def test_to_order_only() -> None:
    option = lid("extra", "first: 1, last: [2, 3], option: true")
    standard, extra = told("XA 2", option)["Left the works with"]
    assert standard.startswith("early: the standard one, printed; ")
    assert extra.startswith("extra: to order only, no evidence; ")
    assert told("XA 3", option)["Left the works with"][1].startswith("extra: possibly, to order only, ")


def test_claims_that_differ_stand_beside_each_other() -> None:
    """Of XA 7 one claim of the run has it, the other has not: neither is picked, and nothing is sure."""
    twice = (
        "kind: assembly\nid: twice\ntitle: twice\nposition: cover\nserials:\n"
        "- {series: xa, first: 1, last: 7, anchor: one, evidence: [{source: book, at: p. 3}]}\n"
        "- {series: xa, first: 1, last: [3, 5], anchor: two, evidence: [{source: book, at: p. 9}]}\n"
    )
    held = record(twice, "assembly", "twice")
    (line,) = (line for line in told("XA 7", held)["Left the works with"] if line.startswith("twice"))
    assert line.startswith("twice: claimed, ")
    assert "p. 3" in line
    lines = [line for line in told("XA 4", held)["Left the works with"] if line.startswith("twice")]
    assert len(lines) == 2  # both have it, the second only possibly
    assert not any("claimed" in line for line in lines)


def test_nothing_is_called_sure_that_may_have_come_later() -> None:
    for serial in ("XA 2", "XA 5", "XA 12"):
        for line in told(serial)["May have been changed to"]:
            assert "surely" not in line
    lines = told("XA 2")["May have been changed to"]
    assert lines == [
        "made: by conversion in the field, no evidence; from XA 1 to somewhere between XA 4 and XA 7; "
        "no evidence is named; by The kit from early, no evidence",
        "spare: as a replacement sold later, no evidence; from XA 1 to XA 10; no evidence is named",
        "remade: possibly by conversion in the field, no evidence; some of XA …, which numbers is not known; "
        "no evidence is named; by The second from made, no evidence",
    ]
    assert "possibly by The kit from early" in told("XA 5")["May have been changed to"][1]


@each_row(
    ("found", "condition", "said"),
    [
        ("early", "untouched", "early, seen 2024 by m, condition untouched: as recorded."),
        (
            "spare",
            "altered",
            "spare, seen 2024 by m, condition altered: a replacement sold later, as recorded.",
        ),
        ("made", "unknown", "made, seen 2024 by m, condition not known: a conversion, as recorded: The kit."),
        (
            "remade",
            "likely-original",
            "remade, seen 2024 by m, condition likely original: a conversion, as recorded: The kit, "
            "then The second.",
        ),
        ("far", "untouched", "far, seen 2024 by m, condition untouched: otherwise than recorded."),
        (
            "far",
            "altered",
            "far, seen 2024 by m, condition altered: otherwise than recorded, which in that condition "
            "proves nothing of the works.",
        ),
        (None, "untouched", "Something that no record has, seen 2024 by m, condition untouched."),
    ],
)
def test_what_was_seen(found: str | None, condition: str, said: str) -> None:
    assert told("XA 2", seen("t", "XA 2", found, condition))["Seen on this machine"] == [said]


def test_what_the_finder_noted_is_told() -> None:
    (line,) = told("XA 2", seen("t", "XA 2", "early", more=", note: Old paint"))["Seen on this machine"]
    assert line.endswith(": as recorded. Noted: Old paint")


def test_a_worn_number_is_said_as_such() -> None:
    made = told("XA 12", seen("worn", "XA 1?", "late"))
    assert "Seen on this machine" not in made
    assert made["Seen on what may be this machine"] == [
        "late, seen 2024 by m on XA 1?, condition untouched: as recorded."
    ]
    assert looked("XA 12", seen("worn", "XA 1?", "late")) == [
        "Seen 2024 by m as XA 1?, which may be this machine, condition untouched: cover."
    ]


def test_who_looked_at_it(monkeypatch: pytest.MonkeyPatch) -> None:
    assert looked("XA 2") == ["Nobody has told of looking at this machine."]
    both = seen("t", "XA 2", "early", more="}, {position: drain}, {position: cover")
    assert looked("XA 2", both) == ["Seen 2024 by m, condition untouched: cover and drain."]
    monkeypatch.setattr(this_machine, "MOST_PLACES", 2)
    assert looked("XA 2", both) == ["Seen 2024 by m, condition untouched: cover and drain."]
    monkeypatch.setattr(this_machine, "MOST_PLACES", 1)
    assert looked("XA 2", both) == ["Seen 2024 by m, condition untouched: cover and 1 more."]


@each_row(
    ("before", "said"),
    [
        (Fraction(1), "Almost certainly (100 %) made before the change from "),
        (Fraction(99951, 100000), "Almost certainly (over 99.9 %) made before "),
        (Fraction(9985, 10000), "Almost certainly (99.8 %) made before "),
        (Fraction(99, 100), "Almost certainly (99.0 %) made before "),
        (Fraction(989, 1000), "Very likely (98 %) made before "),
        (Fraction(9, 10), "Very likely (90 %) made before "),
        (Fraction(2, 3), "Likely (66 %) made before "),
        (Fraction(1, 2), "About as likely as not (50 %) made before "),
        (Fraction(49, 100), "About as likely as not (51 %) made after "),
        (Fraction(1, 1000), "Almost certainly (over 99.9 %) made after "),
        (Fraction(0), "Almost certainly (100 %) made after "),
    ],
)
def test_the_odds_in_words_and_a_figure(before: Fraction, said: str) -> None:
    """The words after the IPCC's guidance note on uncertainty (2010; from memory), for the likelier side."""
    _, _, place = of("XA 5", seen("t", "XA 6", "early"))
    words = plain(odds_words(replace(place.odds[0], before=before)))
    assert words.startswith(said)
    assert words.endswith(" the change from early to late, by all that bears on it")


def test_a_figure_never_says_more_than_is_known() -> None:
    for n in range(500, 1000):
        told_ = percent(Fraction(n, 1000))
        assert float(told_.removesuffix(" %").removeprefix("over ")) <= n / 10


def test_the_badge() -> None:
    assert badge("XA 2") == "Cover (settled)"
    assert badge("XA 2", seen("t", "XA 3", "far")) == "Cover (disputed)"
    assert badge("XA 5", seen("t", "XA 3", "far")) == "Cover (not sure)"
    assert badge("XA 2", lid("both", "first: 1, last: 3")) == "Cover (conflict)"


def test_the_short_answer() -> None:
    assert [short(f"XA {n}") for n in (2, 5, 17)] == [
        "early",
        "possibly early, possibly late",
        "nothing known",
    ]
    assert short("XA 5", seen("t", "XA 6", "early")) == "early, 99.0 %"
    assert short("XA 6", seen("t", "XA 5", "late")) == "late, 99.0 %"
    third = lid("third", "first: [3, 5], last: 6")  # with three of them a share of two is no answer
    assert short("XA 5", seen("t", "XA 6", "early"), third) == "third, possibly early, possibly late"
    assert short("XA 2", seen("t", "XA 2", "far")) == "seen: far; recorded: early"
    assert short("XA 2", seen("t", "XA 2", "early")) == "seen: early, as recorded"
    both = seen("t", "XA 2", "far"), seen("u", "XA 2", "early"), seen("v", "XA 2", "far")
    assert short("XA 2", *both) == "seen: far and early; recorded: early"
    assert short("XA 2", seen("t", "XA 2", None)) == ("seen: something that no record has; recorded: early")
    assert short("XA 2", seen("worn", "XA ?", "far")) == "early"


def test_a_date_that_is_not_one_day() -> None:
    about = seen("t", "XA 2", "early", date="2019~")
    assert looked("XA 2", about) == ["Seen about 2019 by m, condition untouched: cover."]
    assert told("XA 2", about)["Seen on this machine"][0].startswith("early, seen about 2019 by m, ")


def test_what_speaks_against_is_nobody_s_word_for_it() -> None:
    named = "{source: book, at: p. 3}, {source: book, at: p. 9, against: true, note: No lid}"
    (line,) = [
        line
        for line in told("XA 1", lid("two", "first: 1, last: 2", named))["Left the works with"]
        if line.startswith("two")
    ]
    assert line.endswith("on the word of The book, p. 3")


def test_a_share_of_two_is_the_short_answer_only_where_those_two_are_all() -> None:
    register, _, place = of("XA 5", seen("t", "XA 6", "early"))
    (odds,) = place.odds
    assert (
        short_words(register, replace(place, odds=(replace(odds, before=Fraction(1, 2)),))) == "early, 50 %"
    )
    assert short_words(register, replace(place, odds=(odds, odds))) == "possibly early, possibly late"
    assert short_words(register, replace(place, left=place.left[:1])) == "possibly early, possibly late"


def test_headings_stand_only_over_what_is_said() -> None:
    left, changed = "Left the works with", "May have been changed to"
    assert list(told("XA 2")) == [left, changed]
    assert list(told("XA 5", seen("t", "XA 6", "early"))) == ["The odds", left, changed]
    worn = seen("worn", "XA ?", "early")
    assert list(told("XA 6", seen("t", "XA 6", "early"), worn)) == [
        "Seen on this machine",
        "Seen on what may be this machine",
        "The odds",
        left,
        changed,
    ]
    made = Answers(register(lid("early", "first: 1, last: 5")))
    (place, *_) = machine_of(made, "XA 2").positions
    assert [heading for heading, _ in sections(made.register, place)] == [left]


def test_a_conversion_of_which_only_the_result_is_recorded() -> None:
    (line,) = told("XA 12", seen("t", "XA 12", "remade"))["Seen on this machine"]
    assert line == "remade, seen 2024 by m, condition untouched: a conversion, as recorded."


def test_a_machine_in_german() -> None:
    against = [seen(f"t{i}", "XA 3", "far") for i in range(4)]
    with speaking("de"):
        register, _found, _ = of("XA 2")
        assert machine_words(register.machines["x"], Years(1931, 1931), Part.EARLY) == (
            "{}, X. Gebaut 1931, der Nummer nach früh im Jahr."
        )
        assert told("XA 2")["Ab Werk mit"] == [
            "early: sicher, gedruckt; von XA 1 bis irgendwo zwischen XA 4 und XA 7; laut The book, p. 3"
        ]
        (line,) = told("XA 2", *against)["Ab Werk mit"]
        assert line.startswith(
            "early: umstritten durch XA 3, gesehen 2024, XA 3, gesehen 2024 und 2 weitere; von XA 1"
        )
        assert percent(Fraction(995, 1000)) == "99,5 %"
