"""Breaks that lie elsewhere than they did, and the records that moved them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.answers.breaks import Break
from spanbook.answers.diff.model import BreakChange
from spanbook.answers.diff.side import Side
from spanbook.ground.intervals import Run
from spanbook.reading.records import Assembly, End, Record, Teardown

_Key = tuple[str, str, str, str]


def moved(before: Side, after: Side) -> Iterator[BreakChange]:
    """Breaks that both sides have and that lie elsewhere now; what is new or gone shows in the answers."""
    were, are = _by_key(before), _by_key(after)
    for key, now in are.items():
        was = were.get(key)
        if was is not None and _place(was) != _place(now):
            by = {(r.kind, side.today(r.kind, r.id)): r for side, r in _movers(before, after, was, now)}
            yield BreakChange(
                now.series, now.position, *key[2:], _place(was), _place(now), tuple(by.values())
            )


def _by_key(side: Side) -> Mapping[_Key, Break]:
    def today(assembly: Assembly) -> str:
        return side.today(assembly.kind, assembly.id)

    return {(one.series.id, one.position, today(one.earlier), today(one.later)): one for one in side.breaks}


def _place(one: Break) -> Run | None:
    found = one.report.posterior
    return None if found.contradiction else found.interval()


def _movers(before: Side, after: Side, was: Break, now: Break) -> Iterator[tuple[Side, Record]]:
    """The teardowns of either assembly in the series that count and are on one side only, and what spans with
    other ends rest on."""
    for side, other, one in ((before, after, was), (after, before, now)):
        held, there = {one.earlier.id, one.later.id}, set(other.answers.register.teardowns.values())
        there.update(unused.teardown for unused in one.unused)
        for teardown, find in side.answers.fits.finds(one.series, one.position):
            if find.assembly in held and teardown not in there and _is_of(side, one, teardown):
                yield side, teardown
    for old, new in ((was.earlier, now.earlier), (was.later, now.later)):
        if _ends(old, now.series.id) != _ends(new, now.series.id):
            yield from ((after, record) for record in _named(after, new, now.series.id))


def _is_of(side: Side, one: Break, teardown: Teardown) -> bool:
    """Whether a machine is surely one of the series that a break is in."""
    possible = side.answers.fits.possible_at((teardown, one.position))
    return {may_be.series for may_be in possible} == {one.series}


def _ends(assembly: Assembly, series: str) -> list[tuple[End, End]]:
    return [(span.first, span.last) for span in assembly.serials if span.series == series]


def _named(side: Side, assembly: Assembly, series: str) -> Iterator[Record]:
    register = side.answers.register
    spans = (span for span in assembly.serials if span.series == series)
    for evidence in (piece for span in spans for piece in span.evidence if not piece.against):
        held: Mapping[str, Record] = register.sources if evidence.source else register.teardowns
        yield held[evidence.source or evidence.teardown or ""]
