"""Span charts: where along a series something holds, as strips for an inline SVG.

All positions are per cent of the strip's width, so that a chart fits a telephone and a printed page
without its letters shrinking. What is sure is solid, what is possible is hatched and dashed: the
difference never rests on colour.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.answers.bounds import bounds_of, reach_of
from spanbook.ground.intervals import Covers, Run, Span, SpanSet
from spanbook.reading.records import Assembly, FittedSpan, Series
from spanbook.register.model import Register
from spanbook.site import addresses
from spanbook.wording.charts import RUNS_ON, fit_bar, segment_bar

THINNEST = 0.5
THIN = 0.08


class Shape(StrEnum):
    """How a bar is drawn. The names are the style's class names."""

    SURE = "sure"
    SURE_NEXT = "sure-next"
    MAYBE = "maybe"
    CONFLICT = "conflict"
    BLANK = "blank"
    NO_PLACE = "no-place"


@dataclass(frozen=True, slots=True)
class Bar:
    """`height` is 1 for a standard, less for an option or what was fitted later."""

    x: float
    width: float
    shape: Shape
    height: float
    letter: str
    letter_x: float
    title: str
    address: str | None


@dataclass(frozen=True, slots=True)
class Tick:
    x: float
    text: str
    anchor: str


@dataclass(frozen=True, slots=True)
class Strip:
    label: str
    address: str | None
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True)
class Chart:
    """Strips over one series. `skipped` are the runs never issued, `words` the chart in a sentence."""

    words: str
    strips: tuple[Strip, ...]
    ticks: tuple[Tick, ...]
    skipped: tuple[tuple[float, float], ...]

    @property
    def places_missing(self) -> bool:
        """Whether it shows numbers that have no such place."""
        return any(bar.shape is Shape.NO_PLACE for strip in self.strips for bar in strip.bars)


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
        for (series_id, _), fittings in register.fittings.items():
            if series_id == series.id:
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


def letters(segments: Iterable[Segment]) -> dict[str, str]:
    """A letter for each assembly in the order in which they come: A, B … Z, A2, B2 …"""
    seen = dict.fromkeys(fit.assembly.id for segment in segments for fit in segment.fits)
    return {id_: chr(65 + i % 26) + (str(i // 26 + 1) if i >= 26 else "") for i, id_ in enumerate(seen)}


def fit_strip(scale: Scale, label: str, spans: Iterable[FittedSpan]) -> Strip:
    """One assembly's own spans: the sure part over the possible one."""
    bars: list[Bar] = []
    for span in spans:
        reach = reach_of(span, scale.series)
        height = _height(span)
        for run in reach.possibly - reach.surely:
            bars.append(_bar(scale, run, Shape.MAYBE, height, Covers.MAYBE))
        for run in reach.surely:
            bars.append(_bar(scale, run, Shape.SURE, height, Covers.YES))
    return Strip(label, None, tuple(sorted(bars, key=lambda b: (b.x, b.width))))


def segment_strip(
    scale: Scale,
    label: str,
    address: str | None,
    segments: Iterable[Segment],
    this: Assembly | None = None,
) -> Strip:
    """A position over the whole series; successive assemblies take turns in tone, so that breaks show.

    A bar leads to its assembly's page, unless that is `this` page.
    """
    segments = tuple(segments)
    named = letters(segments)
    bars: list[Bar] = []
    for segment in segments:
        span = Span(segment.first, segment.last)
        x, width = scale.place(span)
        words = segment_bar(segment, scale.series)
        other = next((fit.assembly for fit in segment.fits if fit.assembly is not this), None)
        target = addresses.of_record(other) if other else None
        shape, letter = _shape(segment, named), _letter(segment, named)
        height = THIN if shape is Shape.NO_PLACE else 1
        bars.append(Bar(x, width, shape, height, letter, _letter_x(scale, x, width), words, target))
    return Strip(label, address, tuple(bars))


def chart(scale: Scale, words: str, strips: Iterable[Strip]) -> Chart:
    skipped = tuple(scale.place(run) for run in scale.series.skipped)
    return Chart(words, tuple(strips), _ticks(scale), skipped)


def _bar(scale: Scale, run: Span, shape: Shape, height: float, covers: Covers) -> Bar:
    x, width = scale.place(run)
    words = fit_bar(covers, run.first, run.last, scale.series)
    return Bar(x, width, shape, height, "", x, words, None)


def _letter_x(scale: Scale, x: float, width: float) -> float:
    """The middle of a bar, or where a skipped run would hide a letter there, a quarter into it."""
    middle = x + width / 2
    hidden = any(left - 2 < middle < left + run + 2 for left, run in map(scale.place, scale.series.skipped))
    return round(x + width / 4 if hidden else middle, 2)


def _height(span: FittedSpan) -> float:
    if span.fitted != "factory":
        return 0.3
    return 0.6 if span.option else 1


def _shape(segment: Segment, named: dict[str, str]) -> Shape:
    if segment.state is State.UNSURE:
        return Shape.MAYBE
    if segment.state is State.CONFLICT:
        return Shape.CONFLICT
    if not segment.fits:
        return Shape.BLANK
    if segment.state is State.NO_PLACE:
        return Shape.NO_PLACE
    order = list(named).index(segment.fits[0].assembly.id)
    return Shape.SURE_NEXT if order % 2 else Shape.SURE


def _letter(segment: Segment, named: dict[str, str]) -> str:
    def letter(fit: Fit) -> str:
        return named[fit.assembly.id] + ("?" if fit.covers is Covers.MAYBE else "")

    return "·".join(dict.fromkeys(letter(fit) for fit in segment.fits))


def _ticks(scale: Scale) -> tuple[Tick, ...]:
    show = scale.series.stamp.show
    middle = scale.middle
    last = show(scale.last) if scale.series.last is not None else RUNS_ON
    return (
        Tick(0, show(scale.first), "start"),
        Tick(scale.at(middle), show(middle), "middle"),
        Tick(100, last, "end"),
    )
