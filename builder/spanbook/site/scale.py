"""From the numbers of a series to per cent of a chart's width."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.answers.bounds import bounds_of
from spanbook.ground.intervals import Run, Span, SpanSet
from spanbook.reading.records import Series
from spanbook.register.model import Register

THINNEST = 0.5


@dataclass(frozen=True, slots=True)
class Scale:
    """From numbers of a series to per cent of the width; `last` is made up where none is known."""

    series: Series
    first: int
    last: int

    @classmethod
    def of(cls, register: Register, series: Series) -> Scale:
        if series.last is not None:
            return cls(series, series.first, series.last)
        known = [series.first + 99, *series.years.firsts]
        for position in register.fitted_in.get(series.id, ()):
            fittings = register.fittings[series.id, position]
            ends = (end for f in fittings for end in bounds_of(f.span, series))
            known.extend(int(edge) for end in ends for edge in (end.low, end.high) if edge < 10**13)
        # A tenth beyond the highest number that anything is known of: the series runs on.
        return cls(series, series.first, max(known) + (max(known) - series.first) // 10 + 1)

    def at(self, number: int) -> float:
        return round(self._before(number) * 100 / (self._before(self.last + 1)), 2)

    def _before(self, number: int) -> int:
        """How many numbers there are before one: where numbers begin again, how many of those issued."""
        inside = min(max(number, self.first), self.last + 1)
        if self.series.order.plain or inside == self.first:
            return inside - self.first
        return (self.series.issued & SpanSet.run(self.first, inside - 1)).count() or 0

    @property
    def middle(self) -> int:
        """The number in the middle."""
        if self.series.order.plain:
            return (self.first + self.last) // 2
        inside = self.series.issued & SpanSet.run(self.first, self.last)
        left = (inside.count() or 0) // 2
        for run in inside.within(Run(self.first, self.last)):
            if left < run.size:
                return run.first + left
            left -= run.size
        return self.last

    def place(self, span: Span) -> tuple[float, float]:
        """Left edge and width of a run of numbers, never too thin to be seen."""
        left = self.at(self.first if span.first is None else span.first)
        right = 100.0 if span.last is None else self.at(span.last + 1)
        width = max(THINNEST, round(right - left, 2))
        return min(left, 100 - width), width
