"""Lists, counts and several of one thing."""

from __future__ import annotations

from fractions import Fraction

import pytest

from spanbook.ground.language import speaking
from spanbook.ground.punctuation import undecimals
from spanbook.wording.grammar import (
    capital,
    chained,
    counted,
    decimals,
    inside,
    listed,
    plural,
    share_of,
    shares_of,
    times,
)


@pytest.mark.parametrize(
    ("words", "said"),
    [([], ""), (["a"], "a"), (["a", "b"], "a and b"), (["a", "b", "c"], "a, b and c")],
)
def test_a_list_is_a_phrase(words: list[str], said: str) -> None:
    assert listed(words) == said


def test_of_a_choice() -> None:
    assert listed(["a", "b", "c"], "or") == "a, b or c"


def test_one_is_not_counted_unless_everything_is() -> None:
    assert (times(1, "4-1"), times(2, "4-1")) == ("4-1", "2 × 4-1")
    assert (counted(1, "4-1"), counted(2, "4-1")) == ("1 × 4-1", "2 × 4-1")


@pytest.mark.parametrize(("count", "said"), [(0, "0 bolts are"), (1, "1 bolt is"), (2, "2 bolts are")])
def test_a_count_chooses_the_form(count: int, said: str) -> None:
    assert plural(count, "{} bolt is", "{} bolts are") == said


def test_a_sentence_begins_with_a_capital_and_keeps_the_rest() -> None:
    assert capital("the HK series") == "The HK series"
    assert capital("") == ""


def test_a_share_is_never_rounded_to_none_or_all() -> None:
    shares = [Fraction(0), Fraction(1, 1000), Fraction(1, 200), Fraction(6, 1000), Fraction(1, 3)]
    shares += [Fraction(994, 1000), Fraction(199, 200), Fraction(999, 1000), Fraction(1)]
    told = ["0 %", "less than 1 %", "less than 1 %", "1 %", "33 %", "99 %"]
    told += ["more than 99 %", "more than 99 %", "100 %"]
    assert list(map(share_of, shares)) == told
    assert list(map(share_of, map(float, shares))) == told


def test_shares_of_several_are_told_from_the_least_to_the_most() -> None:
    assert shares_of(0.121, 0.179) == "12 % to 18 %"
    assert shares_of(Fraction(0), Fraction(1, 1000)) == "0 % to less than 1 %"
    assert shares_of(0.334, 0.3341) == "33 %"


def test_lists_shares_and_sizes_are_told_in_another_language() -> None:
    assert (chained(["a, b", "c"], "or"), inside("Bolt"), decimals("0.5 in")) == (
        "a, b; or c",
        "bolt",
        "0.5 in",
    )
    with speaking("de"):
        assert listed(["a", "b", "c"]) == "a, b und c"
        assert chained(["a, b", "c", "d"], "or") == "a, b; oder c; oder d"
        assert shares_of(0.001, 0.179) == "weniger als 1 % bis 18 %"
        assert decimals("0.5 in, p. 3.") == "0,5 in, p. 3."
        assert decimals("1.1/8 in") == "1.1/8 in"
        assert [undecimals(one) for one in ("0,5 in", "17x40,5x12 mm", "1.025,4")] == [
            "0.5 in",
            "17x40.5x12 mm",
            "1.025,4",
        ]
        assert inside("Bolt") == "Bolt"
    assert undecimals("1,250 in") == "1,250 in"
