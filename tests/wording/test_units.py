"""How a machine that is known by several numbers is told."""

from __future__ import annotations

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.readings import Reading, read_serial
from spanbook.outputs.text.ask import machine_lines
from spanbook.reading.records import Unit
from spanbook.register.model import Register
from spanbook.register.units import Borne, Number
from spanbook.wording.pieces import plain
from spanbook.wording.units import borne_words, known_words, unit_summary
from tests.support.registers import lid, record, register, unit


def reading(made: Register, serial: str) -> Reading:
    return next(one for one in read_serial(made, serial) if one.issued and one.series.id == "xa")


@pytest.mark.parametrize(
    ("years", "words"),
    [
        ("", "XA 5, machine"),
        (", years: ../1937", "XA 5, machine, until 1937"),
        (", years: 1937/..", "XA 5, machine, from 1937 on"),
        (", years: 1931/1937", "XA 5, machine, 1931 to 1937"),
        (", years: '1937'", "XA 5, machine, in 1937"),
    ],
)
def test_when_a_number_was_borne(years: str, words: str) -> None:
    made = register()
    text = f"kind: unit\nid: u\nmachine: x\nnumbers: [{{serial: XA 5{years}}}]\n"
    one = record(text, "unit", "u")
    assert isinstance(one, Unit)
    assert borne_words(Borne(Number(made.series["xa"], 5), one.numbers[0])) == words


def test_a_machine_names_all_its_numbers() -> None:
    made = register(unit("XA 5", "XA 12"))
    later = reading(made, "XA 12")
    assert [plain(words) for words in known_words(made, later)] == [
        "One machine under several numbers: XA 5, machine; XA 12, machine."
    ]
    assert unit_summary(later, made).endswith("Also known as XA 5.")
    assert not list(known_words(made, reading(made, "XA 6")))


def test_a_card_says_by_which_number_it_goes_and_what_is_recorded_of_the_other() -> None:
    made = register(
        lid("early", "first: 1, last: 7"), lid("late", "first: 10, last: 20"), unit("XA 5", "XA 12")
    )
    lines = list(machine_lines(made, Answers(made).machines.of(reading(made, "XA 12"))))
    assert lines[0].startswith("XA 12, X.")
    assert "    Left the works with, going by XA 5" in lines
    assert lines[lines.index("    Recorded of its other numbers") + 1] == "      XA 12: late"
