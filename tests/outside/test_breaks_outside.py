"""Breaks and totals held against worked cases in exact fractions."""

from __future__ import annotations

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from spanbook.answers.changepoint import Observation, Rates, agreed, posterior
from spanbook.answers.totals import quantile, total
from spanbook.ground.intervals import Run, Span, SpanSet
from tests.support.rows import each_row

DATA = Path(__file__).parent / "data"
CASES = json.loads((DATA / "05_break.json").read_text())
TOTALS = json.loads((DATA / "04_totals.json").read_text())


def runs(spans: tuple[Run, ...]) -> list[list[int]]:
    return [[span.first, span.last] for span in spans]


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_a_break_in_exact_fractions(case: dict[str, Any]) -> None:
    """Six cases computed by brute force over every break and every pattern of swapped machines; the clean
    one has the closed form "last with the earlier + 1 to first with the later" (Hinkley, Biometrika 57,
    1970; from memory). Equal as fractions, so well within 1e-9."""
    f, r = Fraction(case["e01_old_shows_new"]), Fraction(case["e10_new_shows_old"])
    seen = [Observation(number, what == "new", untouched=False) for number, what in case["obs"]]
    printed = Run(case["lo"], case["hi"])
    found = posterior(agreed(printed, [printed]).runs, seen, Rates(f, r, f, r))
    if case["name"].startswith("D"):
        assert found.contradiction
        return
    for first, last, exact, about in case["segments"]:
        for number in range(first, last + 1):
            assert found.mass(number, number) == Fraction(exact)
            assert abs(float(found.mass(number, number)) - about) < 1e-6
    assert found.quantile(Fraction(1, 2)) == case["median"]
    assert [found.interval().first, found.interval().last] == case["central90"]
    assert runs(found.densest()) == case["hpd90_runs"]
    assert runs(found.modes()) == case["mode_runs"]


@each_row("case", TOTALS)
def test_totals_of_published_samples(case: dict[str, Any]) -> None:
    """Samples that circulate with the estimate m(1 + 1/k) - 1; the values were recomputed exactly, both
    tails by enumeration of samples (R. W. Johnson, Teaching Statistics 16(2), 1994, 50-52; from memory)."""
    offset = case["offset"]
    found = total(case["serials"], SpanSet.run(1 + offset, None))
    assert [found.interval.first, found.interval.last] == [n + offset for n in case["central95_freq"]]
    bayes = case["bayes_improper_uniform"]
    if case["k"] == 1:
        assert (found.estimate, found.median) == (None, None)
        return
    assert found.estimate == pytest.approx(case["mvue"] + offset, abs=1e-9)
    assert found.median == bayes["median"] + offset
    assert quantile(found.highest - offset, case["k"], Fraction(19, 20)) == bayes["q95"]


def test_allotted_blocks_inflate_a_total_unless_they_are_taken_out() -> None:
    """R. Ruggles and H. Brodie, JASA 42 (1947) 72-91, an illustration only (the raw sample is not published):
    at each change of model numbers jumped to the next hundred."""
    used = SpanSet.of(Span(100 * block + 1, 100 * block + 55) for block in range(12))
    seen = [n for i, n in enumerate(used.numbers()) if i % 7 == 3]
    naive = total(seen, SpanSet.run(1, None))
    careful = total(seen, used)
    assert naive.estimate is not None
    assert naive.estimate > 1.6 * (used.count() or 0)
    assert careful.interval.first <= (used.last or 0) <= careful.interval.last
