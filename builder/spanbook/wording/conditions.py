"""For whom an act or a way to order applies."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.condition import Applies, Condition, Machines
from spanbook.ground.intervals import SpanSet
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, pgettext
from spanbook.reading.records import Series
from spanbook.register.model import Register
from spanbook.wording.grammar import either, listed
from spanbook.wording.spans import numbers_words

MEANT = marked("if this machine is meant, its number being in the uncertain part")
NOT_MEANT = marked("if no act is meant for this machine")
DONE = marked("if {} had been done by then (its year is not sure)")
NOT_DONE = marked("if {} had not been done by then (its year is not sure)")
MOST_RUNS = 6  # of numbers in a sentence


def condition_words(register: Register, conditions: Sequence[Condition]) -> str:
    """For whom, where it is not for all: `on HK 50 to HK 60`; of several conditions any one will do."""
    return either([told for one in conditions if (told := _condition(register, one))])


def _condition(register: Register, condition: Condition) -> str:
    after = [register.conversions[id_].title for id_ in condition.after]
    told = list(_whom(register, condition))
    told += [_("only after the conversion {}").format(listed(after))] if after else []
    told += [_(DONE).format(listed(condition.made))] if condition.made else []
    told += [_(NOT_DONE).format(listed(condition.unmade))] if condition.unmade else []
    return ", ".join(told)


def _whom(register: Register, condition: Condition) -> Iterator[str]:
    if condition.meant is Applies.MAYBE:
        yield _(NOT_MEANT) if condition.rest else _(MEANT)
    elif condition.meant is Applies.SOME and condition.machines is not None:
        if condition.rest:
            yield _("on other machines")
        else:
            yield _("on {}").format(machines_words(register, condition.machines))


def machines_words(register: Register, machines: Machines) -> str:
    """Runs of numbers: `HK 50 to HK 60 and perhaps HK 45 to HK 49`."""
    surely, perhaps = [], []
    for id_, reach in machines.runs:
        series = register.series[id_]
        surely += _runs(reach.surely, series)
        perhaps += _runs(reach.possibly - reach.surely, series)
    told = [
        *surely[:MOST_RUNS],
        *(_("perhaps {}").format(run) for run in perhaps[: max(0, MOST_RUNS - len(surely))]),
    ]
    left = len(surely) + len(perhaps) - len(told)
    return listed([*told, *([pgettext("machines", "others")] if left else [])])


def _runs(numbers: SpanSet, series: Series) -> list[str]:
    return [numbers_words(span.first, span.last, series) for span in numbers]
