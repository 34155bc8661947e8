"""The running order of a series from what its record says: what is typed there becomes places in it."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from dataclasses import replace
from functools import cached_property

from spanbook.ground.intervals import Span, SpanSet
from spanbook.ground.matching import UNREADABLE
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import hyphened
from spanbook.ground.running_order import Block, Layout, Restarts
from spanbook.ground.serials import Stamp
from spanbook.ground.stamped import Letters, Value, What
from spanbook.ground.years import FAR, YearTable
from spanbook.reading.basics import Around, Beside, End, Typed
from spanbook.reading.series_typed import Pair, Plant, SeriesTyped
from spanbook.reading.series_years import years_of

MOST_SECONDS = 500  # numbers issued again: more of them are a series of their own
_MOST_UNPADDED = 9999  # of a number that begins again and of which nothing else is known


class SeriesOrder:
    """The places of a series: whatever is asked again is worked out once."""

    def __init__(self, typed: SeriesTyped) -> None:
        self.typed = typed

    @cached_property
    def layout(self) -> Layout:
        typed = self.typed
        stamped, letters = typed.stamped, Letters(typed.left_out, tuple(typed.year_letters.items()))
        restarts = Restarts(typed.restarts) if typed.restarts else None
        made = Layout(stamped, tuple(sorted(typed.years)), restarts, self._most, letters, self._plants)
        # A rule tells what is missing; meanwhile the number is read as one that runs on.
        whole = all(map(stamped.has, made.ordered))
        return made if whole else Layout(stamped, made.years, None, self._most, letters, self._plants)

    @property
    def restarts(self) -> Restarts | None:
        return self.layout.restarts

    @property
    def plain(self) -> bool:
        """Whether every number is its own place."""
        return not self.restarts and not self.typed.seconds

    def slug(self, place: int) -> str:
        """A place as a part of an address: as stamped where numbers are not their own places."""
        return str(place) if self.plain else hyphened(self.stamp.show(place).replace(UNREADABLE, "x"))

    @property
    def _plants(self) -> tuple[str, ...]:
        return tuple(plant.letter for plant in self.typed.plants if plant.letter)

    @property
    def _most(self) -> int:
        """The highest number of a block, where its own last number is not known."""
        width = self.typed.stamped.width
        known = self.typed.most or (10**width - 1 if width > 1 else _MOST_UNPADDED)
        return max(known, *(last for last in self.typed.years_last.values() if isinstance(last, int)), 9)

    @cached_property
    def blocks(self) -> tuple[Block, ...]:
        """The blocks with the numbers that were issued again."""
        plain = self.layout.blocks()
        bare = self.layout.stamp(plain)
        again: dict[int, set[tuple[int, str]]] = {}
        for second in self.typed.seconds:
            for pair in second.numbers:
                first, last = (self._place_in(end, plain, bare) for end in pair)
                if first is None or last is None:
                    continue
                i = bisect_right(plain, first, key=lambda block: block.at) - 1
                numbers = range(first, min(last, first + MOST_SECONDS) + 1)
                again.setdefault(i, set()).update((number - plain[i].at, second.mark) for number in numbers)
        return tuple(replace(block, seconds=tuple(sorted(again.get(i, ())))) for i, block in enumerate(plain))

    @cached_property
    def _bare(self) -> Stamp:
        """The stamp in which every part may say anything anywhere, to read what is typed."""
        return self.layout.stamp(self.blocks)

    def place(self, typed: Typed) -> int | None:
        """The place of a number as a record has it; None for what is no number of the series."""
        return self._place_in(typed, self.blocks, self._bare)

    def _place_in(self, typed: Typed, blocks: Sequence[Block], bare: Stamp) -> int | None:
        """A whole number is the running number where that never begins again; all else is as stamped."""
        if isinstance(typed, int) and not self.restarts:
            return blocks[0].place(typed)
        if isinstance(typed, str) and not self.typed.stamped.lettered:
            return None  # 588-612 is no number: without letters or parts the number alone is typed
        return bare.read(str(typed))

    # --- the places of what the record says

    @cached_property
    def first(self) -> int:
        found = self.place(self.typed.first)
        return self.blocks[0].at if found is None else found

    @cached_property
    def last(self) -> int | None:
        """The last place; None when nobody knows how far it ran."""
        return None if self.typed.last is None else self.place(self.typed.last)

    @cached_property
    def skipped(self) -> SpanSet:
        """The numbers that were never issued."""
        return SpanSet.of(self._runs(self.typed.skipped))

    def _runs(self, pairs: Sequence[Pair]) -> Iterator[Span]:
        for pair in pairs:
            first, last = map(self.place, pair)
            if first is not None and last is not None:
                yield Span(first, last)

    @cached_property
    def issued(self) -> SpanSet:
        """The numbers that were issued; without an end when the last is not known."""
        return self.as_if_on(self.last)

    def as_if_on(self, last: int | None) -> SpanSet:
        """The numbers that were issued, if the series ran to a place, or without an end."""
        whole = SpanSet.run(self.first, last)
        if self.restarts:
            whole &= SpanSet.of(self._block_runs())
        return whole - self.skipped

    def _block_runs(self) -> Iterator[Span]:
        """The numbers of each block; those of the last, where nobody knows how far it ran, have no end."""
        *_, final = self.blocks
        for block in self.blocks:
            year = self.year_of_block(block)
            first = self.in_block(self.typed.years.get(year, 1), block)
            last = self.in_block(self.typed.years_last.get(year), block)
            end = block.place(self._most) if last is None else last
            yield Span(
                block.place(1) if first is None else first,
                None if block is final and self.typed.last is None else end,
            )

    def year_of_block(self, block: Block) -> int:
        """The year of a block where the number begins again with every year; 0 elsewhere."""
        year = block.values[What.YEAR] if self.restarts is Restarts.YEAR else 0
        return int(year)

    def in_block(self, typed: object, block: Block) -> int | None:
        """A number of a year as the tables of years have it: the number alone, or as stamped."""
        if isinstance(typed, int):
            return block.place(typed)
        return self.place(typed) if isinstance(typed, str) else None

    def year_lasts(self) -> Iterator[tuple[int, int]]:
        """The last numbers of years, as far as they read."""
        blocks = {self.year_of_block(block): block for block in self.blocks}
        for year, typed in self.typed.years_last.items():
            last = self.in_block(typed, blocks[year]) if year in blocks else self.place(typed)
            if last is not None:
                yield year, last

    @cached_property
    def stamp(self) -> Stamp:
        """The stamp, with what its parts say at each place as far as it is known."""
        return self.layout.stamp(self.blocks, self._allowed, self._edges)

    @cached_property
    def _edges(self) -> list[int]:
        """Where what the parts say may change."""
        return sorted({*self._plant_edges(), *self.years.edges()})

    @property
    def size(self) -> int:
        """How many forms the stamp may have."""
        return self.layout.size(len(self.blocks) + len(self._edges))

    def cuts(self) -> list[int]:
        """The first place, and each from which on the year, the place in it or the plant may be another."""
        places = {self.first, *self._plant_edges(), *self.years.cuts()}
        return sorted(place for place in places if place < FAR)

    def _plant_edges(self) -> Iterator[int]:
        for _, numbers in self.plants:
            for span in numbers:
                yield from (span.first, span.first if span.last is None else span.last + 1)

    def _allowed(self, what: What, place: int, every: Sequence[Value]) -> Sequence[Value]:
        if what is What.PLANT:
            return [plant.letter for plant in self.plants_at(place) if plant.letter]
        years = self.years.year_of(place) if what is What.YEAR else None
        if years is None:
            return every
        told = years.works or years
        last = FAR if told.last is None else told.last
        return [year for year in every if isinstance(year, int) and told.first <= year <= last]

    @cached_property
    def plants(self) -> tuple[tuple[Plant, SpanSet], ...]:
        """Each plant with the numbers that are known to be its."""
        return tuple((plant, SpanSet.of(self._runs(plant.numbers))) for plant in self.typed.plants)

    def plants_at(self, place: int) -> tuple[Plant, ...]:
        """The plants that may have built it: those known to have its number, or else those of any number."""
        known = tuple(plant for plant, numbers in self.plants if place in numbers)
        return known or tuple(plant for plant, numbers in self.plants if not numbers) or self.typed.plants

    # --- ends and years

    def ends(self, end: End | Beside) -> tuple[int, int] | None:
        """The lowest and the highest place that an end may have; None where it has no number that reads."""
        return self._ends(end)

    @cached_property
    def _ends(self) -> Memo[End | Beside, tuple[int, int] | None]:
        return Memo(self._ends_of)

    def _ends_of(self, end: End | Beside) -> tuple[int, int] | None:
        if isinstance(end, Beside) or end in ("unknown", "open"):
            return None
        if isinstance(end, Around):
            middle = self.place(end.number)
            return None if middle is None else (self._onward(middle, -end.off), self._onward(middle, end.off))
        low, high = map(self.place, end if isinstance(end, tuple) else (end, end))
        return None if low is None or high is None else (low, high)

    def _onward(self, place: int, steps: int) -> int:
        """The place so many numbers on, or back; where a number begins again what was issued counts."""
        if not self.restarts:
            return place + steps
        every = self.as_if_on(None)
        if steps < 0:
            runs = [span.meet(Span(0, place - 1)) for span in reversed(every.spans)]
        else:
            runs = [span.meet(Span(place + 1, None)) for span in every]
        left = abs(steps)
        for run in (run for run in runs if not run.empty):
            if run.last is None or left <= run.last - run.first + 1:
                return run.first + left - 1 if steps > 0 or run.last is None else run.last - left + 1
            left -= run.last - run.first + 1
            place = run.last if steps > 0 else run.first
        return place

    @cached_property
    def years(self) -> YearTable:
        """The years of the places."""
        return replace(years_of(self), begin=self.typed.years_begin)
