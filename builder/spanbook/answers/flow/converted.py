"""What conversions make of a circuit: every arrangement that a machine may have after some, one by one."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.answers.bounds import reach_of
from spanbook.answers.flow.over_series import MOST_AT_ONCE, OverSeries, Run
from spanbook.answers.flow.pieces import Arranged, arranged
from spanbook.answers.readings import Reading
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Assembly, Conversion, Series
from spanbook.register.model import Register

Fitted = Mapping[str, Assembly]
# Conversions in their order, and the arrangement that they lead to.
Onward = tuple[tuple[Conversion, ...], Arranged]


@dataclass(frozen=True, slots=True, eq=False)
class Converted:
    """Conversions in their order, what they make of an arrangement, and the numbers that may take them."""

    conversions: tuple[Conversion, ...]
    arranged: Arranged
    runs: tuple[Run, ...]

    @property
    def sure(self) -> bool:
        return any(run.sure for run in self.runs)


def conversions_from(
    register: Register, before: Arranged, conversions: Sequence[Conversion]
) -> tuple[Onward, ...]:
    """The fewest conversions to each arrangement that they lead to, fewest first, the first MOST_AT_ONCE.

    What positions outside the circuit hold is not asked.
    """
    found: list[tuple[tuple[Conversion, ...], Fitted]] = [((), before.fitted)]
    for taken, fitted in found:  # which grows on the way
        for conversion in conversions:
            made = _made(register, fitted, conversion)
            if made and len(found) <= MOST_AT_ONCE and all(made != known for _, known in found):
                found.append(((*taken, conversion), made))
    return tuple((taken, arranged(before.circuit, fitted)) for taken, fitted in found[1:])


def onward(fits: Fits, reading: Reading, left: Sequence[Arranged]) -> tuple[Onward, ...]:
    """What the conversions that a machine may take make of these arrangements: every other one, once."""
    conversions = [step.conversion for step in fits.applying.to(reading)]
    told = [one.fitted for one in left]
    found: list[Onward] = []
    for before in left:
        for taken, after in conversions_from(fits.register, before, conversions):
            if after.fitted not in told:
                told.append(after.fitted)
                found.append((taken, after))
    return tuple(found)


def over_conversions(register: Register, found: Sequence[OverSeries]) -> tuple[Converted, ...]:
    """What conversions make of the arrangements that left the works, in their order."""
    made = (
        Converted(taken, after, tuple(_runs(one.runs, taken)))
        for one in found
        for taken, after in conversions_from(register, one.arranged, _changing(register, one.arranged))
    )
    return tuple(one for one in made if one.runs)


def _changing(register: Register, arranged: Arranged) -> list[Conversion]:
    """The conversions that change something of an arrangement, in the order of their ids."""
    found = {kit for position in arranged.fitted for kit in register.conversions_at.get(position, ())}
    return sorted(found, key=lambda kit: kit.id)


def _made(register: Register, fitted: Fitted, conversion: Conversion) -> Fitted | None:
    """What is fitted afterwards; None where it cannot be taken from here, or makes what no record has."""
    made = dict(fitted)
    for change in conversion.changes:
        held = fitted.get(change.position)
        if held is None:
            continue
        if (change.start and held.id not in change.start) or change.to not in register.assemblies:
            return None
        made[change.position] = register.assemblies[change.to]
    for need in conversion.needs:
        held = fitted.get(need.position)
        if held and not need.advice and held.id not in need.assemblies:
            return None
    return made


def _runs(runs: Iterable[Run], taken: Iterable[Conversion]) -> Iterator[Run]:
    """The numbers of an arrangement that surely, and those that only may, take conversions."""
    for run in runs:
        surely = possibly = run.numbers & run.series.issued
        for conversion in taken:
            sure, maybe = _reach(run.series, conversion)
            surely, possibly = surely & sure, possibly & maybe
        for numbers, sure_ in ((surely, run.sure), (possibly - surely, False)):
            if numbers:
                yield Run(run.series, numbers.over(run.series.issued), sure_)


def _reach(series: Series, conversion: Conversion) -> tuple[SpanSet, SpanSet]:
    surely, possibly = SpanSet(), SpanSet()
    for one in (reach_of(span, series) for span in conversion.serials if span.series == series.id):
        surely, possibly = surely | one.surely, possibly | one.possibly
    return surely, possibly
