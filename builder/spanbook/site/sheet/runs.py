"""Runs of numbers of which the same is said, for tables that scripts look up in."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import Generic, TypeVar

from spanbook.answers.bounds import pieces
from spanbook.ground.intervals import Reach, Span, SpanSet
from spanbook.ground.piecewise import Piece
from spanbook.reading.records import Series

S = TypeVar("S")


class Runs(Generic[S]):
    """What is said of every number of a series, cut where it may change: `said` is asked once a piece."""

    def __init__(self, series: Series, edges: Iterable[Reach], said: Callable[[int], S]) -> None:
        found: list[Piece[S]] = []
        for piece in pieces(series.issued, edges):
            told = said(piece.first)
            if found and found[-1].said == told:
                found[-1] = Piece(found[-1].first, piece.last, told)
            else:
                found.append(Piece(piece.first, piece.last, told))
        self.all = tuple(found)

    @property
    def edges(self) -> tuple[Reach, ...]:
        """Where it changes."""
        return tuple(edge(Span(run.first, run.last)) for run in self.all)

    def at(self, number: int) -> S:
        """What is said of an issued number."""
        return next(run.said for run in self.all if number in Span(run.first, run.last))


def edge(span: Span) -> Reach:
    """A run as something that begins and ends."""
    numbers = SpanSet.of([span])
    return Reach(numbers, numbers)


def alone(numbers: Iterable[int]) -> list[Reach]:
    """Numbers of which something is said apart from all others."""
    return [edge(Span(number, number)) for number in numbers]
