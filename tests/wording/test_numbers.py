"""What is told of part numbers, in another language than English."""

from __future__ import annotations

from spanbook.ground.language import speaking
from spanbook.register.led import Led, LedNumber
from spanbook.register.model import Part
from spanbook.wording.numbers import held_in_words, led_page, match_remarks, senses_page
from tests.support.demo import demo


def _part(record: str) -> Part:
    return next(part for part in demo().parts.values() if part.record and part.record.id == record)


def test_a_number_is_told_of_in_another_language() -> None:
    elbow = _part("water-elbow-left")
    with speaking("de"):
        assert list(match_remarks(demo(), elbow)) == ["Das linke; das rechte ist WH-1816."]
        assert senses_page("WH-1505", 2).summary == "Die Nummer WH-1505 hat 2 Dinge bezeichnet."
        assert led_page(LedNumber("WH-1851", "wexmoor", elbow, Led.MISPRINT, "")).summary == (
            "WH-1851 ist ein Druckfehler für WH-1815 Water elbow, left."
        )
        assert held_in_words(2, elbow) == "Water elbow, left, enthält 2 davon"
