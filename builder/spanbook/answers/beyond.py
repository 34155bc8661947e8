"""What teardowns found past the last number that the records give it, or before the first.

An assembly has the numbers of its spans, and what conversions make has those of the conversions that make it.
Only numbers that are read beyond doubt count. Whether a conversion explains what was found is said with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.answers.conversions import undoes
from spanbook.answers.ever import Ever, reach_in, union
from spanbook.answers.readings import Reading
from spanbook.answers.steps import Step, chain
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Assembly, Conversion, Find, Series, Teardown
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Sighting:
    """What one teardown found on one number, and the conversions that lead to it there, if any do."""

    teardown: Teardown
    find: Find
    number: int
    through: tuple[Conversion, ...]


@dataclass(frozen=True, slots=True)
class Beyond:
    """Machines seen with an assembly past `edge`, the last of a run that is recorded, or before its first.

    `of` is the assembly itself, or the conversion that makes it and ends, or begins, there. The sightings are
    in the order of their numbers.
    """

    series: Series
    assembly: Assembly
    of: Assembly | Conversion
    past: bool
    edge: int
    seen: tuple[Sighting, ...]


def beyond(ever: Ever, assembly: Assembly) -> Iterator[Beyond]:
    """Every one of an assembly, by series."""
    seen = tuple(_sightings(ever, assembly))
    for series in dict.fromkeys(reading.series for reading, _ in seen):
        here = [one for reading, one in seen if reading.series is series]
        yield from _of_assembly(ever.fits, assembly, series, here)
        yield from _of_conversions(ever, assembly, series, here)


def found_on(register: Register, series: Series) -> list[str]:
    """The ids of the assemblies that were found on machines that may be of a series."""
    seen = register.seen_in.get(series.id, ())
    return sorted({find.assembly for teardown in seen for find in teardown.found if find.assembly})


def _sightings(ever: Ever, assembly: Assembly) -> Iterator[tuple[Reading, Sighting]]:
    fits = ever.fits
    for teardown in fits.register.found.get(assembly.id, ()):
        if reading := fits.reading_at(teardown, assembly.position):
            kits = ever.kits((reading.series, assembly.position))
            steps = [Step(kit, maybe=False) for kit, reach in kits if reading.number in reach.possibly]
            left = [fit.assembly.id for fit in fits.at(reading, assembly.position).segment.fits]
            made = [step for step in steps if step.at[assembly.position].to == assembly.id]
            through = tuple(step.conversion for step in chain(steps, left, assembly.id) or made[:1])
            for find in teardown.found:
                if find.assembly == assembly.id:
                    yield reading, Sighting(teardown, find, reading.number, through)


def _of_assembly(
    fits: Fits, assembly: Assembly, series: Series, seen: Sequence[Sighting]
) -> Iterator[Beyond]:
    placed = (one for one in fits.placed(series, assembly.position) if one.fitting.assembly is assembly)
    given = union(one.reach.possibly for one in placed)
    for past, edge, outside in _outside(given, seen):
        yield Beyond(series, assembly, assembly, past, edge, outside)


def _of_conversions(
    ever: Ever, assembly: Assembly, series: Series, seen: Sequence[Sighting]
) -> Iterator[Beyond]:
    """What conversions make, seen where none reaches, where it did not leave the works either.

    Only where what they start from may have been: else it did not come by them.
    """
    fits, register = ever.fits, ever.register
    kits = [
        (kit, reach_in(kit.serials, series).possibly)
        for kit in register.conversions_to.get(assembly.id, ())
        if not undoes(kit, register.conversions_from.get(assembly.id, ()))
    ]
    changes = [change for kit, _ in kits if (change := kit.change_at(assembly.position))]
    bases = ever.any_of((series, assembly.position), (id_ for change in changes for id_ in change.start))
    if any(not change.start for change in changes):
        bases = series.issued
    factory = union(
        one.reach.possibly
        for one in fits.placed(series, assembly.position)
        if one.fitting.assembly is assembly and one.fitting.span.fitted == "factory"
    )
    later = [one for one in seen if one.number in bases - factory]
    for past, edge, outside in _outside(union(reach for _, reach in kits), later):
        for kit, reach in kits:
            if any(edge == (run.last if past else run.first) for run in reach):
                yield Beyond(series, assembly, kit, past, edge, outside)


def _outside(given: SpanSet, seen: Iterable[Sighting]) -> Iterator[tuple[bool, int, tuple[Sighting, ...]]]:
    """The sightings outside some numbers, by the end of a run that each is nearest to: past it, or before."""
    found: dict[tuple[int, bool], list[Sighting]] = {}
    for one in sorted(seen, key=lambda s: (s.number, s.teardown.id)):
        if given and one.number not in given:
            ends = [(abs(one.number - run.last), run.last, True) for run in given if run.last is not None]
            ends += [(abs(run.first - one.number), run.first, False) for run in given]
            past_or_before = [end for end in ends if end[2] == (end[1] < one.number)]
            _, edge, past = min(past_or_before)
            found.setdefault((edge, past), []).append(one)
    for (edge, past), sightings in sorted(found.items()):
        yield past, edge, tuple(sightings)
