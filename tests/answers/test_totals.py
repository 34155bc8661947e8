"""How far a series ran: by the definition, with every sample there is, and with blocks never issued."""

from __future__ import annotations

import json
import random
from fractions import Fraction
from itertools import combinations
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator

from spanbook.answers.totals import total
from spanbook.cli import main
from spanbook.ground.intervals import Span, SpanSet
from spanbook.reading.schemas import folder
from tests.support.tries import tries

PROJECT = Path(__file__).parents[2]
OPEN = SpanSet.run(1, None)


def allowed(seen: list[int], last: int) -> bool:
    """Whether neither tail of all samples as large from 1..last rules that last out at 2.5 %."""
    highest = [max(sample) for sample in combinations(range(1, last + 1), len(seen))]
    low = sum(h <= max(seen) for h in highest)
    high = sum(h >= max(seen) for h in highest)
    return min(low, high) * 40 > len(highest)


@pytest.mark.parametrize("seen", [[1, 2, 4], [2, 3, 5, 6], [1, 3, 4], [1, 2, 3, 4], [2, 5, 6, 8]])
def test_the_interval_is_every_last_that_no_tail_of_all_samples_rules_out(seen: list[int]) -> None:
    found = total(seen, OPEN).interval
    lasts = [last for last in range(max(seen), 26) if allowed(seen, last)]
    # Beyond 25 there are too many samples to list; the upper end is held by the published cases.
    assert lasts[0] == found.first
    assert lasts == [last for last in range(found.first, 26) if last <= found.last]


@pytest.mark.parametrize("seen", [[3, 9, 12], [2, 5, 6, 8], [7, 11, 20, 21, 30]])
def test_the_median_is_that_of_the_posterior_added_up_number_by_number(seen: list[int]) -> None:
    """Flat prior: a last n has the weight of the samples of k with that highest, 1 of C(n, k)."""
    k, highest = len(seen), max(seen)
    weights = []
    weight = Fraction(1)
    for n in range(highest, 4000):
        weights.append(float(weight))
        weight *= Fraction(n + 1 - k, n + 1)  # C(n, k) / C(n + 1, k)
    below, half = 0.0, sum(weights) / 2
    for n, each in enumerate(weights, highest):
        below += each
        if below >= half:
            assert total(seen, OPEN).median == n
            return


def test_no_figure_is_ever_a_number_that_was_not_issued() -> None:
    """Seen 5 and 8 with 11 to 50 never issued: the estimate is the eleventh issued number, 51, not 11."""
    issued = OPEN - SpanSet.run(11, 50)
    found = total([5, 8], issued)
    assert (found.estimate, found.interval.first) == (51, 8)
    chance = random.Random(3)
    for _ in range(tries(300)):
        gaps = SpanSet.of(
            Span(first, first + chance.randint(0, 30)) for first in chance.sample(range(2, 200), 3)
        )
        left = OPEN - gaps
        numbers = [n for n in range(1, 120) if n in left]
        found = total(chance.sample(numbers, chance.randint(2, 5)), left)
        assert found.estimate is not None
        assert found.median is not None
        for told in (round(found.estimate), found.median, found.interval.first, found.interval.last):
            assert told in left


def test_between_two_numbers_that_were_issued_the_estimate_keeps_its_fraction() -> None:
    """Seen 2, 4 and 7: 7 × 4/3 − 1 = 8 1/3. Where 9 was never issued, the nearer is 8."""
    assert total([2, 4, 7], OPEN).estimate == pytest.approx(8 + 1 / 3)
    assert total([2, 4, 7], OPEN - SpanSet.run(9, 20)).estimate == 8


def run(*arguments: str) -> str:
    result = CliRunner().invoke(main, ["total", *arguments, "--folder", str(PROJECT)])
    assert result.exit_code == (1 if "nothing" in arguments else 0), result.output
    return result.output


def test_the_command_tells_what_the_page_tells() -> None:
    told = run("hk").splitlines()
    assert "numbers were seen, the highest HK" in told[0]
    assert any(line.startswith("As likely as not the series ended at HK") for line in told)
    assert "there are b6, dt, dx, hk, hm" in run("nothing")


@pytest.mark.parametrize("series", ["hk", "dx"])
def test_json_keeps_to_its_schema(series: str) -> None:
    schema = Draft202012Validator(json.loads((folder() / "answer-total.json").read_text()))
    answer = json.loads(run(series, "--json"))
    assert list(schema.iter_errors(answer)) == []
    assert answer["series"] == series
