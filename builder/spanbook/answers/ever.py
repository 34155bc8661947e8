"""What a machine may ever have held: by the spans of assemblies, and by what conversions and acts put there.

All of it is what may have been, in every way that the records leave open: what is not among it never was, as
far as is recorded. Whether that is sure as well depends on whether something else is surely recorded there.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from spanbook.answers.applicability import Fits, State
from spanbook.answers.bounds import reach_of
from spanbook.ground.intervals import Covers, Reach, SpanSet
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import PartKey
from spanbook.reading.records import Absence, Assembly, Conversion, Series, SeriesSpan, Supersession
from spanbook.register.model import Part
from spanbook.register.statements import Use

Place = tuple[Series, str]
NOTHING = SpanSet()


class Ever:
    """What may ever have been where, for one register: whatever is asked again is computed once."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self.register = fits.register
        self.held = Memo(self._held)
        self.settled = Memo(self._settled)
        self.there = Memo(self._there_at)
        self._unlisted = Memo(self._unlisted_at)
        self.parts = Memo(self._parts)
        self.perhaps_parts = Memo(self._perhaps_parts)
        self.kits = Memo(self._kits_at)
        self.goes_somewhere = Memo(self._goes_somewhere)

    def any_of(self, place: Place, assemblies: Iterable[str]) -> SpanSet:
        """The numbers on which one of some assemblies may ever have been."""
        held = self.held(place)
        return union(held.get(id_, NOTHING) for id_ in assemblies)

    def surely_had(self, series: Series, assembly: Assembly) -> SpanSet:
        """The numbers that an assembly was supplied on, where no other claim on the same run says no."""
        runs = (run for run in self.fits.runs(series, assembly.position) if run[0].assembly is assembly)
        found = NOTHING
        for run in runs:
            reaches = [self.fits.reach(fitting) for fitting in run]
            said = union(reach.surely for reach in reaches)
            for reach in reaches:
                said &= reach.possibly
            found |= said
        return found

    def _held(self, place: Place) -> Mapping[str, SpanSet]:
        """Where each assembly may ever have been: by its spans, and by conversions of what may have been."""
        series, position = place
        found: dict[str, SpanSet] = {}
        there = self.there(place)
        for one in self.fits.placed(series, position):
            id_ = one.fitting.assembly.id
            found[id_] = found.get(id_, NOTHING) | (one.reach.possibly & there)
        kits = self.kits(place)
        growing = True
        while growing:
            growing = False
            for change, reach in ((kit.change_at(position), reach) for kit, reach in kits):
                assert change is not None, "the kits are those that change it"
                begun = (
                    union(found.get(id_, NOTHING) for id_ in change.start) if change.start else series.issued
                )
                made = reach.possibly & begun & there
                if not made <= found.get(change.to, NOTHING):
                    found[change.to] = found.get(change.to, NOTHING) | made
                    growing = True
        return found

    def _there_at(self, place: Place) -> SpanSet:
        """The numbers on which a position may ever have been: within assemblies, where one of them was."""
        series, position = place
        found = self.register.positions.get(position)
        if found is None or found.housing is None:
            return series.issued
        around = series, found.housing.position
        unknown = series.issued - self.settled(around)
        return (self.any_of(around, found.housing.assemblies) | unknown) & self.there(around)

    def _kits_at(self, place: Place) -> tuple[tuple[Conversion, Reach], ...]:
        """The conversions at a position that machines of a series may take, with what they cover of it."""
        series, position = place
        here = (kit for kit in self.register.conversions_in.get(series.id, ()) if kit.change_at(position))
        reaches = ((kit, reach_in(kit.serials, series)) for kit in here)
        return tuple((kit, reach) for kit, reach in reaches if reach.possibly)

    def _settled(self, place: Place) -> SpanSet:
        """The numbers that surely left the works with a standard assembly that is recorded, or without the
        place."""
        return union(
            SpanSet.run(segment.first, segment.last) & place[0].issued
            for segment in self.fits.segments(*place)
            if segment.state is State.NO_PLACE
            or (
                segment.state is not State.CONFLICT
                and any(fit.covers is Covers.YES and not fit.span.option for fit in segment.fits)
            )
        )

    def _unlisted_at(self, place: Place) -> SpanSet:
        """The numbers where what is not recorded may have any part: an assembly, or its list of parts."""
        series, position = place
        if position not in self.fits.positions(self.register.machines[series.machine]):
            return NOTHING
        known = self.register.assemblies
        held = ((id_, known.get(id_)) for id_ in self.held(place))
        bare = [id_ for id_, one in held if not isinstance(one, Absence) and not (one and one.parts)]
        return (series.issued - self.settled(place)) | self.any_of(place, bare)

    def _parts(self, series: Series) -> Mapping[PartKey, SpanSet]:
        """Where each part may ever have been, by the lists of parts, and by what acts put in its place."""
        return self._spread(series, {part.key: self.listed(series, part) for part in self._asked_of(series)})

    def _perhaps_parts(self, series: Series) -> Mapping[PartKey, SpanSet]:
        """The same, and wherever its positions leave it open."""
        bases = {
            part.key: union(
                (
                    self.listed(series, part),
                    *(self._unlisted((series, position)) for position in positions_of(part)),
                )
            )
            for part in self._asked_of(series)
        }
        return self._spread(series, bases)

    def _asked_of(self, series: Series) -> Iterable[Part]:
        """The parts replaced by acts limited to a series, and those in whose place they were given."""
        register = self.register
        acts = register.supersessions_in.get(series.id, ())
        return list(self._and_before(register.key_of(act, use) for act in acts for use in act.old))

    def _and_before(self, keys: Iterable[PartKey]) -> Iterator[Part]:
        """Parts, and then those in whose place any of them was given."""
        register = self.register
        found = dict.fromkeys(keys)
        waiting = list(found)
        for key in waiting:
            part = register.parts[key]
            yield part
            before = (register.key_of(act, use) for act in (*part.new_in, *part.needed_in) for use in act.old)
            new = [one for one in dict.fromkeys(before) if one not in found]
            found.update(dict.fromkeys(new))
            waiting.extend(new)

    def _goes_somewhere(self, key: PartKey) -> bool:
        """Whether it is recorded where a part goes: by itself, or in the place of others."""
        return any(positions_of(part) or part.teardowns for part in self._and_before([key]))

    def _given(self, act: Supersession) -> Iterator[PartKey]:
        """What an act puts on a machine: the new parts, and those that must go with them."""
        needed = (need.part for need in act.needs if need.part)
        return (self.register.key_of(act, use) for use in (*act.new, *needed))

    def listed(self, series: Series, part: Part) -> SpanSet:
        """Where what contains a part may ever have been, or a conversion that handles it been done."""
        listed = (self._had(series, use.assembly) & self._on_line(series, use) for use in part.uses)
        others = (self._had(series, one) for one in (*part.whole, *part.conversions))
        return union((*listed, *others, *self._read(series, part)))

    def _on_line(self, series: Series, use: Use) -> SpanSet:
        """The numbers that a line of a list may be on, where they have the assembly."""
        lists = self.fits.lists
        return lists.reach((lists.line_with(use), series)).possibly

    def _had(self, series: Series, holder: Assembly | Conversion) -> SpanSet:
        place = series, holder.position
        if isinstance(holder, Assembly):
            return self.any_of(place, [holder.id])
        return reach_in(holder.serials, series).possibly & self.any_of(place, holder.start)

    def _read(self, series: Series, part: Part) -> Iterator[SpanSet]:
        """The machines on which somebody read it, of those whose number is beyond doubt."""
        for teardown in part.teardowns:
            reading = self.fits.reading(teardown)
            if reading:
                built = (one.number for one in reading.built if one.series is series)
                yield from (SpanSet.run(number, number) for number in built)

    def _spread(self, series: Series, bases: Mapping[PartKey, SpanSet]) -> Mapping[PartKey, SpanSet]:
        """What acts give on machines that have, or may have been given, what they replace."""
        found = dict(bases)
        waiting = [key for key, numbers in found.items() if numbers]
        while waiting:
            key = waiting.pop()
            for act in self.register.parts[key].old_in:
                given = found[key] & act_reach(act, series).possibly
                for new in found.keys() & set(self._given(act)):
                    if not given <= found[new]:
                        found[new] |= given
                        waiting.append(new)
        return found


def positions_of(part: Part) -> set[str]:
    """The positions where a part goes by itself, leaving aside what it replaces."""
    return {one.position for one in holders(part)}


def holders(part: Part) -> tuple[Assembly | Conversion, ...]:
    """What contains a part, puts it on or takes it off."""
    return (*(use.assembly for use in part.uses), *part.whole, *part.conversions)


def reach_in(spans: Iterable[SeriesSpan], series: Series) -> Reach:
    """What several spans together cover of a series."""
    reaches = [reach_of(span, series) for span in spans if span.series == series.id]
    return Reach(union(r.surely for r in reaches), union(r.possibly for r in reaches))


def act_reach(act: Supersession, series: Series) -> Reach:
    """The machines of a series to which an act applies; all of them where it is not limited."""
    return reach_in(act.serials, series) if act.serials else Reach(series.issued, series.issued)


def union(sets: Iterable[SpanSet]) -> SpanSet:
    return SpanSet.of(span for one in sets for span in one)
