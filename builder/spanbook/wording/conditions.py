"""For whom an act or a way to order applies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.condition import Applies, Condition, Machines
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.wording.grammar import listed
from spanbook.wording.spans import numbers_words

MEANT = "if this machine is meant, its number being in the uncertain part"
NOT_MEANT = "if no act is meant for this machine"
DONE = "had been done by then (its year is not sure)"
NOT_DONE = "had not been done by then (its year is not sure)"
MOST_RUNS = 6  # of numbers in a sentence


def condition_words(register: Register, conditions: Sequence[Condition]) -> str:
    """For whom, where it is not for all: `on HK 50 to HK 60`; of several conditions any one will do."""
    return " or ".join(told for one in conditions if (told := _condition(register, one)))


def _condition(register: Register, condition: Condition) -> str:
    after = [register.conversions[id_].title for id_ in condition.after]
    told = [*_whom(register, condition), *([f"only after the conversion {listed(after)}"] if after else [])]
    told += [f"if {listed(condition.made)} {DONE}"] if condition.made else []
    told += [f"if {listed(condition.unmade)} {NOT_DONE}"] if condition.unmade else []
    return ", ".join(told)


def _whom(register: Register, condition: Condition) -> Iterator[str]:
    if condition.meant is Applies.MAYBE:
        yield NOT_MEANT if condition.rest else MEANT
    elif condition.meant is Applies.SOME and condition.machines is not None:
        whom = "other machines" if condition.rest else machines_words(register, condition.machines)
        yield f"on {whom}"


def machines_words(register: Register, machines: Machines) -> str:
    """Runs of numbers: `HK 50 to HK 60 and perhaps HK 45 to HK 49`."""
    surely, perhaps = [], []
    for id_, reach in machines.runs:
        series = register.series[id_]
        surely += _runs(reach.surely, series)
        perhaps += _runs(reach.possibly - reach.surely, series)
    told = [*surely[:MOST_RUNS], *(f"perhaps {run}" for run in perhaps[: max(0, MOST_RUNS - len(surely))])]
    left = len(surely) + len(perhaps) - len(told)
    return listed([*told, *(["others"] if left else [])])


def _runs(numbers: SpanSet, series: Series) -> list[str]:
    return [numbers_words(span.first, span.last, series) for span in numbers]
