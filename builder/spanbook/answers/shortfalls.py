"""Where what a conversion or a supersession covers falls short of what it is for, or goes past it.

Four sorts, each with the numbers in question: *surely* in every way that the records leave open, *possibly*
where an end of the conversion's or act's own span leaves it open, or nothing is recorded. Where what is to be
converted may itself have been there, its own break is in question and not the conversion.

- *Unreached*: an assembly was surely there, some conversion changes it in that series, none reaches there.
- *Past its base*: a conversion reaches machines that never had what it starts from.
- *Need unmet*: of those that may take it, machines that can never hold what it needs elsewhere.
- *Never had*: an act is limited to machines that never had the part it replaces.

What only undoes another conversion is not expected to reach further, and leaves nothing unreached. What names
an assembly that no record has is left out: that is told by itself.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from spanbook.answers.bounds import reach_of
from spanbook.answers.conversions import undoes
from spanbook.answers.ever import Ever, Place, holders, positions_of, reach_in
from spanbook.ground.intervals import Reach
from spanbook.ground.memo import Memo
from spanbook.reading.records import (
    Assembly,
    Conversion,
    PositionNeed,
    Record,
    Series,
    SeriesSpan,
    Supersession,
)
from spanbook.register.model import Part, Register


@dataclass(frozen=True, slots=True)
class Unreached:
    """Numbers that had an assembly and that none of its `conversions` in that series reaches."""

    series: Series
    position: str
    assemblies: tuple[Assembly]
    numbers: Reach
    conversions: tuple[Conversion, ...]

    @property
    def told_on(self) -> tuple[Record, ...]:
        """The records that it is about, first the one that it is known by."""
        return (*self.assemblies, *self.conversions)

    @property
    def which(self) -> str:
        """What tells it from others of the record that it is known by, in the same series."""
        return ""


@dataclass(frozen=True, slots=True)
class PastBase:
    """Numbers of one span of a conversion that never had any of the assemblies that it starts from."""

    series: Series
    position: str
    assemblies: tuple[Assembly, ...]
    numbers: Reach
    conversion: Conversion
    span: SeriesSpan

    @property
    def told_on(self) -> tuple[Record, ...]:
        return (self.conversion, *self.assemblies)

    @property
    def which(self) -> str:
        return str(index_of(self.conversion.serials, self.span))


@dataclass(frozen=True, slots=True)
class NeedUnmet:
    """Numbers of a conversion that can never hold any of the assemblies that it needs at another position."""

    series: Series
    position: str
    assemblies: tuple[Assembly, ...]
    numbers: Reach
    conversion: Conversion
    need: PositionNeed

    @property
    def told_on(self) -> tuple[Record, ...]:
        return (self.conversion, *self.assemblies)

    @property
    def which(self) -> str:
        return str(index_of(self.conversion.needs, self.need))


@dataclass(frozen=True, slots=True)
class NeverHad:
    """Numbers of one span of a supersession that never had a part which it replaces.

    `position` is where the part goes on that machine, if that is recorded, and `assemblies` have it there.
    """

    series: Series
    position: str | None
    assemblies: tuple[Assembly, ...]
    numbers: Reach
    act: Supersession
    span: SeriesSpan
    part: Part

    @property
    def told_on(self) -> tuple[Record, ...]:
        return (self.act,)

    @property
    def which(self) -> str:
        return f"{index_of(self.act.serials, self.span)}-{self.part.key.slug}"


def index_of(items: Sequence[object], item: object) -> int:
    """The place of an item in its list; another that says the same is another."""
    return next(i for i, one in enumerate(items) if one is item)


Shortfall = Unreached | PastBase | NeedUnmet | NeverHad
_SORTS = (Unreached, PastBase, NeedUnmet, NeverHad)


class Shortfalls:
    """Those of one register, each computed once, by the record that it is known by."""

    def __init__(self, ever: Ever) -> None:
        self._ever = ever
        self._known_by = Memo(self._found)

    def _found(self, record: Record) -> tuple[Shortfall, ...]:
        """The sure ones and those that may be."""
        match record:
            case Assembly():
                return tuple(unreached(self._ever, record))
            case Conversion():
                return (*past_base(self._ever, record), *need_unmet(self._ever, record))
            case Supersession():
                return tuple(never_had(self._ever, record))
        return ()

    @property
    def every(self) -> tuple[Shortfall, ...]:
        register = self._ever.register
        kits, acts = register.conversions.values(), register.supersessions.values()
        return self._of((*register.assemblies.values(), *kits, *acts))

    def in_series(self, series: Series) -> tuple[Shortfall, ...]:
        """Those of numbers of one series."""
        register, id_ = self._ever.register, series.id
        places = ((id_, position) for position in register.fitted_in.get(id_, ()))
        held = dict.fromkeys(fitting.assembly for place in places for fitting in register.fittings[place])
        kits, acts = register.conversions_in.get(id_, ()), register.supersessions_in.get(id_, ())
        return tuple(one for one in self._of((*held, *kits, *acts)) if one.series is series)

    def told_on(self, record: Record) -> tuple[Shortfall, ...]:
        """Those that are about a record, whatever record they are known by."""
        register = self._ever.register
        beside: Iterable[Record] = ()
        match record:
            case Assembly(id=id_):
                beside = (
                    *register.conversions_from.get(id_, ()),
                    *register.conversions_needing.get(id_, ()),
                )
            case Conversion():
                ids = (id_ for change in record.changes for id_ in change.start)
                beside = (register.assemblies[id_] for id_ in ids if id_ in register.assemblies)
        asked = sorted({record, *beside}, key=lambda one: (one.kind, one.id))
        return tuple(one for one in self._of(asked) if record in one.told_on)

    def _of(self, records: Iterable[Record]) -> tuple[Shortfall, ...]:
        """Those that are known by some records, by their sorts."""
        found = (one for record in records for one in self._known_by(record))
        return tuple(sorted(found, key=lambda one: _SORTS.index(type(one))))


def unreached(ever: Ever, assembly: Assembly) -> Iterator[Unreached]:
    register = ever.register
    kits = tuple(_onward(register, assembly))
    fittings = tuple(register.fittings_of(assembly)) if kits else ()
    for series in dict.fromkeys(fitting.series for fitting in fittings):
        here = tuple(kit for kit in kits if any(span.series == series.id for span in kit.serials))
        reach = reach_in((span for kit in here for span in kit.serials), series)
        had = ever.surely_had(series, assembly)
        numbers = Reach(had - reach.possibly, had - reach.surely)
        if here and numbers.possibly:
            yield Unreached(series, assembly.position, (assembly,), numbers, here)


def _onward(register: Register, assembly: Assembly) -> Iterator[Conversion]:
    """The conversions of an assembly that do not only undo another."""
    before = register.conversions_to.get(assembly.id, ())
    for kit in register.conversions_from.get(assembly.id, ()):
        if not undoes(kit, before):
            yield kit


def past_base(ever: Ever, kit: Conversion) -> Iterator[PastBase]:
    starts = _all(ever.register, kit.start)
    for span, series in _spans(ever, kit.serials) if starts else ():
        numbers = lacking(ever, reach_of(span, series), (series, kit.position), kit.start)
        if numbers.possibly:
            yield PastBase(series, kit.position, starts, numbers, kit, span)


def need_unmet(ever: Ever, kit: Conversion) -> Iterator[NeedUnmet]:
    every = dict.fromkeys(series for _, series in _spans(ever, kit.serials))
    for need, series in ((need, series) for need in kit.needs for series in every):
        wanted = _all(ever.register, need.assemblies)
        may = ever.any_of((series, kit.position), kit.start)
        reach = reach_in(kit.serials, series)
        able = Reach(reach.surely & may, reach.possibly & may)
        numbers = lacking(ever, able, (series, need.position), need.assemblies)
        if wanted and numbers.possibly:
            yield NeedUnmet(series, need.position, wanted, numbers, kit, need)


def lacking(ever: Ever, reach: Reach, place: Place, assemblies: Sequence[str]) -> Reach:
    """Of some numbers those that never had any of these: surely, where another is surely recorded."""
    lack = reach.possibly - ever.any_of(place, assemblies)
    return Reach(reach.surely & lack & ever.settled(place), lack)


def never_had(ever: Ever, act: Supersession) -> Iterator[NeverHad]:
    register = ever.register
    for span, series in _spans(ever, act.serials):
        reach = reach_of(span, series)
        for key in dict.fromkeys(register.key_of(act, use) for use in act.old):
            lack = reach.possibly - ever.parts(series)[key]
            if lack and ever.goes_somewhere(key):
                sure = reach.surely & lack - ever.perhaps_parts(series)[key]
                part = register.parts[key]
                position, held = _where(ever, part, series)
                yield NeverHad(series, position, held, Reach(sure, lack), act, span, part)


def _where(ever: Ever, part: Part, series: Series) -> tuple[str | None, tuple[Assembly, ...]]:
    """The first position of a machine where a part goes, by itself or in the place of what it replaces."""
    has = ever.fits.positions(ever.register.machines[series.machine])
    waiting, known = [part], {part.key}
    for one in waiting:
        if positions := sorted(positions_of(one).intersection(has)):
            at = positions[0]
            held = (h for h in holders(one) if isinstance(h, Assembly) and h.position == at)
            return at, tuple(dict.fromkeys(held))
        before = {ever.register.key_of(act, use) for act in one.new_in for use in act.old} - known
        known |= before
        waiting.extend(ever.register.parts[key] for key in sorted(before))
    return None, ()


def _all(register: Register, ids: Sequence[str]) -> tuple[Assembly, ...]:
    """The assemblies with these ids; none where one is no assembly's."""
    known = register.assemblies
    return tuple(known[id_] for id_ in ids) if all(id_ in known for id_ in ids) else ()


def _spans(ever: Ever, spans: Sequence[SeriesSpan]) -> Iterator[tuple[SeriesSpan, Series]]:
    """Spans with their series, where a record has it."""
    known = ever.register.series
    return ((span, known[span.series]) for span in spans if span.series in known)
