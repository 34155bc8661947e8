"""Span charts: where along a series something holds, as strips for an inline SVG.

All positions are per cent of the strip's width, so that a chart fits a telephone and a printed page
without its letters shrinking. What is sure is solid, what is possible is hatched and dashed: the
difference never rests on colour.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers.applicability import Fit, Segment, State
from spanbook.answers.bounds import reach_of
from spanbook.ground.intervals import Covers, Span
from spanbook.reading.records import Assembly, FittedSpan
from spanbook.site import addresses
from spanbook.site.scale import Scale
from spanbook.wording.charts import fit_bar, runs_on, segment_bar

THIN = 0.08
# Widths in pixels of a strip and of a letter: what a bar has room for is told from these, on the safe side.
TELEPHONE, DESK, LETTER = 270, 460, 7.5


class Room(StrEnum):
    """From which width on a bar holds a name; its letter alone before. The values are class names."""

    ANY = "named"
    DESK = "named-wide"
    NONE = "lettered"


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
    name: str
    room: Room
    title: str
    address: str | None


@dataclass(frozen=True, slots=True)
class Tick:
    """Where something changes or the series ends; no `text` without room for it, `anchor` as in SVG."""

    x: float
    text: str
    anchor: str


class Look(StrEnum):
    """What a machine was seen with: the assembly in question, perhaps that one, or another. Class names."""

    THIS = "this"
    MAYBE = "this-maybe"
    OTHER = "other"


@dataclass(frozen=True, slots=True)
class Dot:
    """A machine that somebody looked at; `good` where it was untouched or likely original there."""

    x: float
    look: Look
    good: bool
    title: str


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
    scale: Scale
    dots: tuple[Dot, ...] = ()

    @property
    def places_missing(self) -> bool:
        """Whether it shows numbers that have no such place."""
        return any(bar.shape is Shape.NO_PLACE for strip in self.strips for bar in strip.bars)

    @property
    def others(self) -> bool:
        """Whether a dot stands for a machine that had something else."""
        return any(dot.look is not Look.THIS for dot in self.dots)


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


def segment_bars(scale: Scale, segments: tuple[Segment, ...]) -> tuple[Bar, ...]:
    """A position over the whole series; successive assemblies take turns in tone, so that breaks show.

    A bar leads to its assembly's page, to the first of several.
    """
    named = letters(segments)
    bars: list[Bar] = []
    for segment in segments:
        x, width = scale.place(Span(segment.first, segment.last))
        shape, letter = _shape(segment, named), _letter(segment, named)
        name = _name(segment, letter)
        left, clear = _clear(scale, x, width)
        bars.append(
            Bar(
                x=x,
                width=width,
                shape=shape,
                height=THIN if shape is Shape.NO_PLACE else 1,
                letter=letter,
                letter_x=round(left + clear / 2, 2),
                name=name,
                room=_room(clear, name),
                title=segment_bar(segment, scale.series),
                address=_leads_to(segment),
            )
        )
    return tuple(bars)


def bars_on_page(bars: Iterable[Bar], segments: Iterable[Segment], this: Assembly) -> tuple[Bar, ...]:
    """The same on an assembly's own page, to which none of them leads."""
    return tuple(
        replace(bar, address=_leads_to(segment, this))
        if segment.fits[:1] and segment.fits[0].assembly is this
        else bar
        for bar, segment in zip(bars, segments, strict=True)
    )


def _leads_to(segment: Segment, this: Assembly | None = None) -> str | None:
    other = next((fit.assembly for fit in segment.fits if fit.assembly is not this), None)
    return addresses.of_record(other) if other else None


def chart(
    scale: Scale,
    words: str,
    strips: Iterable[Strip],
    changes: Iterable[int] = (),
    dots: Iterable[Dot] = (),
) -> Chart:
    """`changes` are the numbers at which something else begins: each is a tick, told where there is room."""
    skipped = tuple(scale.place(run) for run in scale.series.skipped)
    return Chart(words, tuple(strips), _ticks(scale, changes), skipped, scale, tuple(dots))


def changes_of(segments: Iterable[Segment]) -> tuple[int, ...]:
    """Where what is known of a place changes: the first number of every segment but the first."""
    return tuple(segment.first for segment in segments)[1:]


def _bar(scale: Scale, run: Span, shape: Shape, height: float, covers: Covers) -> Bar:
    x, width = scale.place(run)
    words = fit_bar(covers, run.first, run.last, scale.series)
    return Bar(x, width, shape, height, "", x, "", Room.NONE, words, None)


def _clear(scale: Scale, x: float, width: float) -> tuple[float, float]:
    """Left edge and width of the widest part of a bar over which no run of numbers never issued is drawn."""
    parts, left = [], x
    for start, run in sorted(map(scale.place, scale.series.skipped)):
        if start < x + width and start + run > x:
            parts.append((left, start - left))
            left = start + run
    return max((*parts, (left, x + width - left)), key=lambda part: part[1])


def _name(segment: Segment, letter: str) -> str:
    """What a bar may hold: the letter and what it stands for; nothing where there is more than one answer."""
    alone = len(segment.fits) == 1 and segment.state is not State.UNSURE
    return f"{letter} {segment.fits[0].assembly.title}" if alone else ""


def _room(width: float, name: str) -> Room:
    """From which width on the name fits into so much of a strip."""
    if not name:
        return Room.NONE
    fits = (room for room, strip in ((Room.ANY, TELEPHONE), (Room.DESK, DESK)) if _wide(name, strip) <= width)
    return next(fits, Room.NONE)


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


def _ticks(scale: Scale, changes: Iterable[int]) -> tuple[Tick, ...]:
    """Both ends and each change; a number is told where it does not run into one told before it."""
    show = scale.series.stamp.show
    first, last = show(scale.first), show(scale.last) if scale.series.last is not None else runs_on()
    taken, end = _wide(first), 100 - _wide(last)
    ticks = [Tick(0, first, "start")]
    changes = tuple(changes)
    for number in changes or (scale.middle,):
        shown = show(number)
        x, half = scale.at(number), _wide(shown) / 2
        told = x - half > taken and x + half < end
        ticks.append(Tick(x, shown if told else "", "middle"))
        taken = x + half if told else taken
    return (*ticks, Tick(100, last, "end"))


def _wide(text: str, strip: int = TELEPHONE) -> float:
    """The room that a text takes, and a little air, in per cent of a strip."""
    return 100 * (len(text) * LETTER + 10) / strip
