"""What is ordered where it goes by the machine: the table of a part's page, held to what the command says."""

from __future__ import annotations

import random

from spanbook.answers.listed import listed
from spanbook.answers.orders import Ordering
from spanbook.answers.readings import Reading, machine_of
from spanbook.ground.part_numbers import PartKey
from spanbook.site.which.tables import goes_by_machine, table
from spanbook.wording import order_here
from tests.support.demo import demo, shown
from tests.support.tries import tries

REGISTER = demo()
SITE = shown()
ASKING = [part for part in REGISTER.parts.values() if goes_by_machine(SITE, part)]


def said(machine: Reading, key: PartKey) -> list[str]:
    """The lines of the command for one machine, which is called by no number."""
    lists, judge = listed(REGISTER.answers.ever, key, machine), REGISTER.answers.standing
    ordering = Ordering(REGISTER, machine)
    lines = order_here.lines(
        REGISTER, key, lists, ordering.of, lambda act: judge(act).standing, order_here.THIS
    )
    return [words for _, words in lines]


def test_the_table_of_a_part_says_for_every_machine_what_is_said_of_that_one() -> None:
    rng = random.Random(17)
    assert len(ASKING) > 5
    for part in ASKING:
        made = table(SITE, part)
        for series in REGISTER.series.values():
            numbers = [n for run in series.issued for n in range(run.first, (run.last or run.first + 99) + 1)]
            for number in rng.sample(numbers, min(len(numbers), tries(60))):
                runs = made["series"][series.id]
                (at,) = [at for first, last, at in runs if first <= number <= (last or number)]
                assert made["said"][at] == said(machine_of(REGISTER, series, number), part.key)
