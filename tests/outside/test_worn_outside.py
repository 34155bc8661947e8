"""Our table of characters that wear alike, held against the published one for glyphs on a screen."""

from __future__ import annotations

from itertools import combinations

import pytest

from spanbook.ground.matching import WORN, worn
from tests.support.rows import each_row

# Unicode Technical Standard #39, confusables.txt, as packaged in PyPI confusable_homoglyphs 3.3.1 (MIT):
# among single ASCII letters and digits it has these pairs and no others.
UTS39 = {frozenset("0o"), frozenset("1l"), frozenset("il")}
# Pairs that the trade knows from worn stampings and UTS #39 lacks; common practice, no source.
OF_OUR_OWN = ["5s", "8b", "2z", "6g", "38", "0q", "0d", "7t", "1i"]


@pytest.mark.parametrize("pair", sorted("".join(sorted(p)) for p in UTS39))
def test_what_looks_alike_on_a_screen_wears_alike(pair: str) -> None:
    assert worn(pair[0]) == worn(pair[1])


@each_row("pair", OF_OUR_OWN)
def test_what_is_ours_alone(pair: str) -> None:
    assert worn(pair[0]) == worn(pair[1])
    assert frozenset(pair) not in UTS39


def test_the_table_has_nothing_else() -> None:
    ours = {frozenset(p) for group in WORN.values() for p in combinations(group, 2)}
    named = UTS39 | {frozenset(pair) for pair in OF_OUR_OWN}
    # What follows from the named pairs by way of a common character, and no more.
    implied = {frozenset(p) for p in ("oq", "od", "qd", "b3")}
    assert ours == named | implied
