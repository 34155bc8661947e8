"""What fits: the segments of a series at one position, and the answer for one serial number.

The factory spans of a position cut the numbers of a series into segments, each in one state. Every
issued number falls in exactly one segment; segments neither overlap nor leave a hole.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers.applying import Applying
from spanbook.answers.bounds import pieces, reach_of
from spanbook.answers.claims import Claims, runs_of
from spanbook.answers.finds import Finds
from spanbook.answers.lines import Lists
from spanbook.answers.nested import inside
from spanbook.answers.placed import Placed, placed
from spanbook.answers.readings import Reading
from spanbook.answers.speaking import Speaking
from spanbook.ground.intervals import Covers, Reach, Span, SpanSet
from spanbook.ground.memo import Memo
from spanbook.reading.records import Assembly, FittedSpan, Machine, Series, Teardown
from spanbook.register.model import Register
from spanbook.register.statements import Fitting
from spanbook.register.units import Number


class State(StrEnum):
    """settled: one, surely. choice: one and its options, or options only. unsure: some only possibly, or the
    place itself. conflict: two standards, each surely by what is claimed of it, or one where there is no
    place for it. blank: nothing is known. no-place: what is around it has no such place. other-plate: nothing
    is said by the numbers of this plate, and those of another tell."""

    SETTLED = "settled"
    CHOICE = "choice"
    UNSURE = "unsure"
    CONFLICT = "conflict"
    BLANK = "blank"
    NO_PLACE = "no-place"
    OTHER_PLATE = "other-plate"


@dataclass(frozen=True, slots=True)
class Fit:
    """An assembly by one of its spans, and whether it was on the numbers in question.

    `covers` is by all that is claimed of the same run, `says` by this span alone.
    """

    fitting: Fitting
    covers: Covers
    says: Covers

    @property
    def assembly(self) -> Assembly:
        return self.fitting.assembly

    @property
    def span(self) -> FittedSpan:
        return self.fitting.span

    def order(self) -> tuple[bool, bool, bool, str]:
        """What left the works first; the sure before the possible, standards before options; then by id."""
        later = self.span.fitted != "factory"
        return later, self.covers is Covers.MAYBE, self.span.option, self.assembly.id


@dataclass(frozen=True, slots=True)
class Segment:
    """Numbers first..last (None: no known end) with one answer; skipped numbers may lie inside.

    `there` is whether the place was on them at all: one within some assemblies may not have been. `ask_by` is
    the plate whose numbers tell, where those of this one do not.
    """

    first: int
    last: int | None
    state: State
    fits: tuple[Fit, ...]
    there: Covers = Covers.YES
    ask_by: str | None = None

    def __contains__(self, number: int) -> bool:
        return self.first <= number and (self.last is None or number <= self.last)


@dataclass(frozen=True, slots=True)
class AtPosition:
    """What one machine has at one position: the factory's segment, and all that may be on it now.

    `reading` is the machine by the number that tells. `fits` also has what was supplied or installed later
    (`fitted` service or field).
    """

    position: str
    reading: Reading
    segment: Segment
    fits: tuple[Fit, ...]

    @property
    def state(self) -> State:
        return self.segment.state


@dataclass(frozen=True, slots=True)
class Card:
    """One machine by its number: what every one of its positions has."""

    reading: Reading
    positions: tuple[AtPosition, ...]


def segments(issued: SpanSet, placed: Iterable[Placed], there: Reach | None = None) -> tuple[Segment, ...]:
    """The segments that the factory spans among those at a place make, in rising order.

    `there` is where the place was at all; None: on all of them.
    """
    there = there or Reach(issued, issued)
    factory = [one for one in placed if one.fitting.span.fitted == "factory"]
    found: list[Segment] = []
    for piece in pieces(issued, [there, *(one.reach for one in factory)]):
        made = _segment(piece, covering(factory, piece.first), there.covers(piece.first))
        if found and (found[-1].fits, found[-1].there) == (made.fits, made.there):
            found[-1] = replace(found[-1], last=made.last)
        else:
            found.append(made)
    return tuple(found)


def _segment(run: Span, fits: Sequence[Fit], there: Covers) -> Segment:
    if there is Covers.NO and not claimed(fits):
        return Segment(run.first, run.last, State.NO_PLACE, (), there)
    if there is Covers.YES:
        return Segment(run.first, run.last, state_of(fits), tuple(fits))
    doubted = sorted((replace(fit, covers=Covers.MAYBE) for fit in fits), key=Fit.order)
    state = State.CONFLICT if there is Covers.NO or state_of(fits) is State.CONFLICT else State.UNSURE
    return Segment(run.first, run.last, state, tuple(doubted), there)


def state_of(fits: Iterable[Fit]) -> State:
    """The state of numbers that these factory fits, and no others, cover: by assemblies, not by spans."""
    fits = tuple(fits)
    standards = [fit for fit in fits if not fit.span.option]
    if len({fit.assembly for fit in claimed(fits)}) > 1:
        return State.CONFLICT
    sure = {fit.assembly for fit in fits if fit.covers is Covers.YES}
    if any(fit.assembly not in sure for fit in fits):
        return State.UNSURE
    if not fits:
        return State.BLANK
    return State.SETTLED if len(fits) == len(standards) else State.CHOICE


def claimed(fits: Iterable[Fit]) -> tuple[Fit, ...]:
    """The standards among fits that are surely there by what their own span says."""
    return tuple(fit for fit in fits if fit.says is Covers.YES and not fit.span.option)


def positions_of(register: Register, machine: Machine) -> tuple[str, ...]:
    """The positions that a machine has and that hold assemblies, in the order of the tree."""
    places = (position.path for position in register.positions.values() if position.holds)
    groups = machine.positions
    return tuple(p for p in places if not groups or any(f"{p}/".startswith(f"{group}/") for group in groups))


class Fits:
    """What fits, for one register: whatever is asked again is computed once."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self.lists = Lists(register)
        self.reach = Memo(self._reach)
        self.positions = Memo(self._positions)
        self.applying = Applying(register)
        self.speaking = Speaking(register, self._recorded)
        read = Finds(register, self.speaking)
        self.possible, self.possible_at = read.possible, read.possible_at
        self.reading, self.reading_at = read.machine, read.machine_at
        self.finds, self.finds_of = read.at, read.of_assembly
        self.told_alike = Memo(self._pieces_at)
        self._placed = Memo(self._placed_at)
        self._runs = Memo(self._runs_at)
        self._run_of = Memo(self._runs_by_claim)
        self._segments = Memo(self._segments_at)
        self._there = Memo(self._there_at)
        self.samples = Memo(self._samples)

    def _samples(self, asked: tuple[Teardown, str]) -> tuple[Reading, ...]:
        """One number for all those that a worn one may be and that the records of a position tell alike."""
        found = []
        for may_be in self.possible_at(asked):
            for piece in self.told_alike((may_be.series, asked[1])):
                if (number := may_be.lowest(piece.first, piece.last)) is not None:
                    found.append(self.speaking.reading(may_be, number))
        return tuple(found)

    def _pieces_at(self, place: tuple[Series, str]) -> tuple[Span, ...]:
        """The numbers cut wherever an assembly there, a line of its list or a conversion begins or ends."""
        series, position = place
        lines = self.lists.edges(self.register.limited_at.get(position, ()), series)
        converted = (reach for one in self.applying.in_series(series) for reach in one.reaches)
        return tuple(pieces(series.issued, (*self._cuts(place), *lines, *converted)))

    def _cuts(self, place: tuple[Series, str]) -> Iterator[Reach]:
        """What begins or ends at a place by itself, and what does around it."""
        if (there := self._there(place)).surely != place[0].issued:
            yield there
        yield from (one.reach for one in self._placed(place))

    def pieces(self, series: Series, position: str) -> Iterator[Span]:
        """The issued numbers of a series, cut wherever the answer at a position may change."""
        return pieces(series.issued, self._cuts((series, position)))

    def _reach(self, fitting: Fitting) -> Reach:
        """What a span of an assembly surely and possibly covers."""
        return reach_of(fitting.span, fitting.series)

    def _positions(self, machine: Machine) -> tuple[str, ...]:
        return positions_of(self.register, machine)

    def placed(self, series: Series, position: str) -> tuple[Placed, ...]:
        """Every assembly that has a span there, factory or later, with what the span covers."""
        return self._placed((series, position))

    def _placed_at(self, place: tuple[Series, str]) -> tuple[Placed, ...]:
        return placed(self._runs(place))

    def _runs_at(self, place: tuple[Series, str]) -> tuple[Claims, ...]:
        series, position = place
        return runs_of(self.register.fittings.get((series.id, position), ()), series)

    def runs(self, series: Series, position: str) -> tuple[Claims, ...]:
        """All that is claimed there, by the runs that the claims are made on."""
        return self._runs((series, position))

    def _runs_by_claim(self, place: tuple[Series, str]) -> Mapping[Fitting, Claims]:
        return {claim: run for run in self._runs(place) for claim in run}

    def claims(self, fitting: Fitting) -> Claims:
        """Every claim on the run that a span speaks of, itself too, rising."""
        return self._run_of((fitting.series, fitting.assembly.position))[fitting]

    def segments(self, series: Series, position: str) -> tuple[Segment, ...]:
        """The segments of a series at a position, in rising order."""
        return self._segments((series, position))

    def _segments_at(self, place: tuple[Series, str]) -> tuple[Segment, ...]:
        series, position = place
        found = segments(series.issued, self._placed(place), self._there(place))
        if plate := self.speaking.plate_to_ask(series, position):
            other = State.OTHER_PLATE
            return tuple(one if one.fits else replace(one, state=other, ask_by=plate) for one in found)
        return found

    def segment(self, number: Number, position: str) -> Segment:
        """The segment of one number at a position."""
        return next(s for s in self.segments(number.series, position) if number.number in s)

    def _recorded(self, number: Number, position: str) -> bool:
        found = self.segment(number, position)
        return bool(found.fits) or found.state is State.NO_PLACE

    def there(self, series: Series, position: str) -> Reach:
        """On which numbers a position was at all as they left the works: one within assemblies may not be."""
        return self._there((series, position))

    def _there_at(self, place: tuple[Series, str]) -> Reach:
        series, position = place
        found = self.register.positions.get(position)
        if found is None or found.housing is None:
            return Reach(series.issued, series.issued)
        around = series, found.housing.position
        return inside(series.issued, self._placed(around), self._there(around), found.housing.assemblies)

    def card(self, reading: Reading) -> Card:
        """What every position of the machine with this number has; no positions for one never issued."""
        if not reading.issued:
            return Card(reading, ())
        machine = self.register.machines[reading.series.machine]
        return Card(reading, tuple(self.at(reading, position) for position in self.positions(machine)))

    def at(self, reading: Reading, position: str) -> AtPosition:
        """What one position of the machine with an issued number has, by the number of it that tells."""
        told = self.speaking.of(reading, position)
        segment = self.segment(told.own, position)
        later = (one for one in self.placed(told.series, position) if one.fitting.span.fitted != "factory")
        return AtPosition(position, told, segment, (*segment.fits, *covering(later, told.number)))


def covering(spans: Iterable[Placed], number: int) -> list[Fit]:
    """The fits at a number in their order."""
    says = ((one, one.reach.covers(number)) for one in spans)
    fits = (Fit(one.fitting, one.heard(number), covers) for one, covers in says if covers is not Covers.NO)
    return sorted(fits, key=Fit.order)
