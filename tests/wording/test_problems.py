"""What is said around the problems of a check."""

from __future__ import annotations

from dataclasses import replace

import pytest

from spanbook.ground.language import speaking
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity
from spanbook.wording.problems import (
    count_words,
    line_words,
    lines_cut,
    mended_words,
    more_words,
    place_words,
    thanks,
)

RULE = Rule("a-rule", Severity.ERROR, "Because.", bad="", good="")
ERROR = Problem.of(RULE, Finding(Place("a.yml", 3, 5), "read this", "do that"))
ADVICE = replace(ERROR, severity=Severity.ADVICE)


@pytest.mark.parametrize(
    ("problems", "records", "said"),
    [
        ((), 1, "1 record: nothing to complain of."),
        ((ERROR,), 2, "2 records: 1 error."),
        ((ERROR, ERROR, ADVICE), 2, "2 records: 2 errors, 1 piece of advice."),
    ],
)
def test_problems_are_counted(problems: tuple[Problem, ...], records: int, said: str) -> None:
    assert count_words(problems, records) == said


def test_thanks_say_whether_something_has_to_be_mended() -> None:
    assert "something has to be mended" in thanks((ADVICE, ERROR))
    assert thanks((ADVICE,)) == "Thank you for what you found. Everything could be read."


def test_a_problem_in_a_line() -> None:
    assert line_words("error", "a.yml", 3, "read this", "do that", "a-rule") == (
        "error in a.yml, line 3: read this. To do: do that. (a-rule)"
    )
    assert place_words(ERROR) == "a-rule at line 3, column 5"


def test_what_does_not_fit_is_counted() -> None:
    assert more_words(1) == "1 more does not fit here; `spanbook check` tells it too."
    assert more_words(2) == "2 more do not fit here; `spanbook check` tells them all."
    assert (lines_cut(1), lines_cut(2)) == (
        "1 more line does not fit here.",
        "2 more lines do not fit here.",
    )


@pytest.mark.parametrize(
    ("mended", "left", "said"),
    [
        ((), (ERROR,), None),
        ((ERROR,), (ADVICE,), "It mends an error of the main branch; none remains."),
        ((ERROR, ERROR), (ERROR,), "It mends 2 errors of the main branch; one remains."),
        ((ERROR,), (ERROR, ADVICE, ERROR), "It mends an error of the main branch; 2 remain."),
    ],
)
def test_what_is_mended_and_what_remains(
    mended: tuple[Problem, ...], left: tuple[Problem, ...], said: str | None
) -> None:
    assert mended_words(mended, left) == said


def test_problems_are_counted_in_another_language() -> None:
    with speaking("de"):
        assert count_words((ERROR, ERROR, ADVICE), 1) == "1 Eintrag: 2 Fehler, 1 Rat."
        assert count_words((), 2) == "2 Einträge: nichts zu beanstanden."
        assert mended_words((ERROR,), (ERROR,)) == "Behebt 1 Fehler des Hauptzweigs; 1 bleibt."
        assert place_words(ERROR) == "a-rule in Zeile 3, Spalte 5"
        assert line_words("Fehler", "a.yml", 3, "dies", "jenes", "a-rule") == (
            "Fehler in a.yml, Zeile 3: dies. Zu tun: jenes. (a-rule)"
        )
