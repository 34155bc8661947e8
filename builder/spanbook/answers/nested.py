"""Places inside assemblies: on which numbers such a place was there when the machine left the works.

A place within some assemblies of the position around it was there where the machine surely left with
one of these, and was not where it surely left with another; elsewhere it may have been. From one number that
surely has a standard to the next such, with something possible on every number between, production went from
one to the other: each of them had one of those that are possible there.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from spanbook.answers.bounds import pieces
from spanbook.answers.placed import Placed
from spanbook.ground.intervals import Covers, Reach, Span, SpanSet


def inside(issued: SpanSet, around: Iterable[Placed], outer: Reach, within: Collection[str]) -> Reach:
    """Where a place within some assemblies was, by what is placed around it and by where that was."""
    factory = [one for one in around if one.fitting.span.fitted == "factory"]
    runs = list(pieces(issued, [one.reach for one in factory]))
    found = [_Possible.at(factory, run.first, within) for run in runs]
    has = [one.has(closed=closed) for one, closed in zip(found, _closed(found), strict=True)]
    return Reach(
        _where(runs, has, (Covers.YES,)) & outer.surely,
        _where(runs, has, (Covers.YES, Covers.MAYBE)) & outer.possibly & issued,
    )


def _where(runs: Iterable[Span], has: Iterable[Covers], wanted: Collection[Covers]) -> SpanSet:
    return SpanSet.of(run for run, covers in zip(runs, has, strict=True) if covers in wanted)


@dataclass(frozen=True, slots=True)
class _Possible:
    """What may have been around a place on some numbers: something that has it, something that has not; and
    whether a standard is surely recorded there."""

    having: bool
    without: bool
    sure: bool

    @staticmethod
    def at(factory: Iterable[Placed], number: int, within: Collection[str]) -> _Possible:
        having = without = sure = False
        for one in factory:
            heard = one.heard(number)
            if heard is not Covers.NO:
                has = one.fitting.assembly.id in within
                having, without = having or has, without or not has
                sure = sure or (heard is Covers.YES and not one.fitting.span.option)
        return _Possible(having, without, sure)

    def has(self, *, closed: bool) -> Covers:
        if not (self.sure or closed) or (self.having and self.without):
            return Covers.MAYBE
        return Covers.YES if self.having else Covers.NO


def _closed(found: Sequence[_Possible]) -> list[bool]:
    """Of runs in rising order those between two with a sure standard, with something possible on each."""
    closed = [False] * len(found)
    begun: int | None = None
    for i, one in enumerate(found):
        if one.sure:
            if begun is not None:
                closed[begun:i] = [True] * (i - begun)
            begun = i + 1
        elif not (one.having or one.without):
            begun = None
    return closed
