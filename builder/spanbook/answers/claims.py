"""Claims: what several spans of one thing say of one run of machines, and of the break at its end.

Spans of an assembly in a series, fitted alike, or of one line of its list, whose possible reaches meet are
claims on one run; spans that do not meet are runs of their own. Nobody's word is dropped, and nothing is
picked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from math import isinf
from typing import TypeVar

from spanbook.answers.bounds import bounds_of
from spanbook.ground.intervals import Bound, Run
from spanbook.reading.records import Series, Source
from spanbook.register.model import Register
from spanbook.register.statements import Fitting, Limit

Claimed = Fitting | Limit
C = TypeVar("C", Fitting, Limit)
Claims = tuple[Fitting, ...]  # on one run, in rising order
_End = Callable[[Claimed, Series], Bound]
_Found = tuple[Run | None, set[str]]


@dataclass(frozen=True, slots=True)
class BreakClaim:
    """Where a break is printed to be, and by which sources; there may be none."""

    run: Run
    sources: tuple[Source, ...]


def runs_of(spans: Iterable[C], series: Series) -> tuple[tuple[C, ...], ...]:
    """Spans in a series as the runs that they are claims on, each in rising order."""
    alike: dict[object, list[C]] = {}
    for one in spans:
        alike.setdefault(_of_what(one), []).append(one)
    return tuple(run for each in alike.values() for run in _joined(each, series))


def _of_what(one: Claimed) -> object:
    """What a span says the numbers of: an assembly as it was fitted, or a line of its list."""
    if isinstance(one, Limit):
        return one.assembly, id(one.line)
    return one.assembly, one.span.fitted, one.span.option


def _joined(spans: list[C], series: Series) -> Iterator[tuple[C, ...]]:
    """Some spans, one at the least, parted wherever nothing reaches across."""
    held: list[C] = []
    top = 0.0
    for one in sorted(spans, key=lambda f: place(f, series)):
        first, last = bounds_of(one.span, series)
        if held and first.low > top:
            yield tuple(held)
            held = []
        top = max(top, last.high)
        held.append(one)
    yield tuple(held)


def place(fitting: Claimed, series: Series) -> tuple[tuple[float, float], tuple[float, float], str]:
    """What spans are put in order by: where they begin, where they end; of those alike, their anchors."""
    first, last = bounds_of(fitting.span, series)
    return (first.low, last.low), (first.high, last.high), fitting.span.anchor or ""


def claimed(earlier: Claimed, later: Claimed, series: Series) -> Run | None:
    """Where two spans say that the break is: where both allow it, else anywhere between them."""
    after, start = _after(earlier, series), _start(later, series)
    return _run(_meet(after, start) or Bound(min(after.low, start.low), max(after.high, start.high)))


def break_claims(
    register: Register, earlier: Sequence[Claimed], later: Sequence[Claimed], series: Series
) -> tuple[BreakClaim, ...]:
    """Where the spans of one thing and of the next say that the break is, in rising order.

    Spans on the word of one source are read together. One that shares no source with the other side stands
    with that side's only span where both allow a number, else for its own end alone: between two that
    contradict each other it would take in everybody's. Claims of the same numbers are one.
    """
    found: list[_Found]
    if len(earlier) == len(later) == 1:
        found = [(claimed(earlier[0], later[0], series), _named(earlier[0]) | _named(later[0]))]
    else:
        found = [*_together(earlier, later, series), *_alone(earlier, later, series, _after)]
        found += _alone(later, earlier, series, _start)
    sources: dict[Run, set[str]] = {}
    for run, named in found:
        if run:
            sources.setdefault(run, set()).update(named)
    return tuple(
        BreakClaim(run, tuple(register.sources[id_] for id_ in sorted(sources[run])))
        for run in sorted(sources, key=lambda run: (run.first, run.last))
    )


def _together(earlier: Sequence[Claimed], later: Sequence[Claimed], series: Series) -> Iterator[_Found]:
    for before in earlier:
        for after in later:
            if shared := _named(before) & _named(after):
                yield claimed(before, after, series), shared


def _alone(mine: Sequence[Claimed], others: Sequence[Claimed], series: Series, end: _End) -> Iterator[_Found]:
    other_end = _start if end is _after else _after
    for fitting in mine:
        if any(_named(fitting) & _named(other) for other in others):
            continue
        own = end(fitting, series)
        both = _meet(own, other_end(others[0], series)) if len(others) == 1 else None
        vague = (fitting.span.last if end is _after else fitting.span.first) == "unknown"
        if both or not vague:
            yield _run(both or own), _named(fitting)


def _after(fitting: Claimed, series: Series) -> Bound:
    """Where the first number after a span lies."""
    end = bounds_of(fitting.span, series)[1]
    return Bound(end.low + 1, end.high + 1)


def _start(fitting: Claimed, series: Series) -> Bound:
    """Where a span begins: never after it may end."""
    first, last = bounds_of(fitting.span, series)
    return Bound(first.low, max(min(first.high, last.high), first.low))


def _meet(one: Bound, other: Bound) -> Bound | None:
    low, high = max(one.low, other.low), min(one.high, other.high)
    return Bound(low, high) if low <= high else None


def _run(bound: Bound) -> Run | None:
    return None if isinf(bound.high) else Run(int(bound.low), int(bound.high))


def _named(fitting: Claimed) -> set[str]:
    """The sources that a span rests on; those against it do not say where it ends."""
    return {piece.source for piece in fitting.span.evidence if piece.source and not piece.against}
