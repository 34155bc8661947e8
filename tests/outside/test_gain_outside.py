"""What an answer tells, against the worked example of J. R. Quinlan, Induction of Decision Trees, Machine
Learning 1 (1986), 81-106: table 1 (the fourteen mornings) and section 4 (their gains)."""

from __future__ import annotations

from collections import Counter

import pytest

from spanbook.answers.signs.gain import gain, shares

ATTRIBUTES = ("outlook", "temperature", "humidity", "windy")
MORNINGS = [
    ("sunny", "hot", "high", "false", "N"),
    ("sunny", "hot", "high", "true", "N"),
    ("overcast", "hot", "high", "false", "P"),
    ("rain", "mild", "high", "false", "P"),
    ("rain", "cool", "normal", "false", "P"),
    ("rain", "cool", "normal", "true", "N"),
    ("overcast", "cool", "normal", "true", "P"),
    ("sunny", "mild", "high", "false", "N"),
    ("sunny", "cool", "normal", "false", "P"),
    ("rain", "mild", "normal", "false", "P"),
    ("sunny", "mild", "normal", "true", "P"),
    ("overcast", "mild", "high", "true", "P"),
    ("overcast", "hot", "normal", "false", "P"),
    ("rain", "mild", "high", "true", "N"),
]


@pytest.mark.parametrize(
    ("attribute", "told"), [("outlook", 0.246), ("temperature", 0.029), ("humidity", 0.151), ("windy", 0.048)]
)
def test_the_gains_of_the_fourteen_mornings(attribute: str, told: float) -> None:
    """The paper gives .246, .029, .151 and .048 bits, cut or rounded after the third place."""
    at = ATTRIBUTES.index(attribute)
    classes = Counter(morning[-1] for morning in MORNINGS)
    held = [count / len(MORNINGS) for count in classes.values()]
    answers = [
        [sum(m[at] == answer and m[-1] == of for m in MORNINGS) / count for of, count in classes.items()]
        for answer in dict.fromkeys(morning[at] for morning in MORNINGS)
    ]
    assert gain(held, answers) == pytest.approx(told, abs=0.001)


def test_a_question_that_halves_tells_one_bit() -> None:
    """C. E. Shannon, A Mathematical Theory of Communication (1948), section 1: two equal choices."""
    assert gain([0.25] * 4, [[1, 1, 0, 0], [0, 0, 1, 1]]) == pytest.approx(1)
    assert gain([0.25] * 4, [[0.5] * 4, [0.5] * 4]) == pytest.approx(0)


def test_equal_weights_are_equal_shares() -> None:
    assert shares([-700, -700, -700]) == pytest.approx([1 / 3] * 3)
    assert shares([0, -693]) == pytest.approx([2 / 3, 1 / 3], abs=1e-4)
