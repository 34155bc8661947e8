"""Dashes and quotation marks, against the Unicode Character Database as Python carries it (`unicodedata`)."""

from __future__ import annotations

import sys
import unicodedata

import pytest

from spanbook.ground.matching import squeezed
from spanbook.ground.part_numbers import folded

# Brackets of editors' notes, which Unicode counts among the quotation marks (general categories Pi and Pf).
EDITORS = ("BRACKET", "VERTICAL BAR")
# Signs of scripts that no part number here is written in: the Yezidi hyphenation mark.
OTHERS = {"\U00010ead"}


def of(*categories: str) -> list[str]:
    """All characters of some general categories."""
    return [c for c in map(chr, range(sys.maxunicode + 1)) if unicodedata.category(c) in categories]


@pytest.mark.slow
def test_every_dash_is_a_hyphen() -> None:
    """General category Pd (UAX #44): what the database calls dash punctuation."""
    dashes = [c for c in of("Pd") if c not in OTHERS]
    assert len(dashes) > 20
    assert {folded(f"a{c}1") for c in dashes} == {"a-1"}
    assert {squeezed(f"a{c}1") for c in dashes} == {"a1"}


@pytest.mark.slow
def test_every_quotation_mark_is_one_of_two() -> None:
    """General categories Pi and Pf: initial and final quotes."""
    quotes = [c for c in of("Pi", "Pf") if not any(word in unicodedata.name(c) for word in EDITORS)]
    assert len(quotes) == 10
    assert {folded(f"a{c}1") for c in quotes} == {"a'1", 'a"1'}
    assert {squeezed(f"a{c}1") for c in quotes} == {"a1"}
