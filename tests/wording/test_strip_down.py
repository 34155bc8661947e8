from __future__ import annotations

import pytest

from spanbook.ground.language import speaking
from spanbook.reading.records import Catch, ToolUsed
from spanbook.wording.strip_down import accounts_words, catch_words, either_words, tool_words
from tests.support.demo import demo


@pytest.mark.parametrize(
    ("tool", "told"),
    [
        (ToolUsed("Brass scriber", None, None, None), "brass scriber"),
        (ToolUsed("Spanner", "13", "mm", None), "spanner, 13 mm (0.5118 in): 13 mm"),
        (ToolUsed("Bar", None, None, "a bolt through it"), "bar; made for it: a bolt through it"),
    ],
)
def test_a_tool_with_its_size_and_jaw(tool: ToolUsed, told: str) -> None:
    assert tool_words(tool).startswith(told.partition(",")[0])
    assert tool_words(tool).rpartition(":")[2] == told.rpartition(":")[2]


def test_a_size_near_no_jaw_names_none() -> None:
    assert ":" not in tool_words(ToolUsed("Spanner", "0.755", "in", None))


def test_what_is_to_be_caught() -> None:
    assert catch_words(Catch("Ball and spring", None, "spring")) == "ball and spring, it is under spring"
    assert catch_words(Catch("A key", "P-1", None)) == "a key"


def test_a_sheet_is_told_in_another_language() -> None:
    sheets = demo().answers.sheets.values()
    alone = next(one for one in sheets if len(one.accounts) == 1)
    either = next(one for one in sheets if one.either)
    with speaking("de"):
        assert accounts_words(alone).startswith("Aus 1 Bericht: ")
        assert "die Reihenfolge ist frei; beides wurde so gemacht." in next(iter(either_words(either)))
        assert catch_words(Catch("Feder", None, "spring")) == "Feder, steht unter Federspannung"
        assert tool_words(ToolUsed("Zange", "0.755", "in", "aus Messing")) == (
            "Zange, 0,755 in (19,18 mm); eigens gemacht: aus Messing"
        )
