"""Sizes in records and the standards they name: what a thing is by its sizes, and what a size excludes."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from spanbook.answers.sizing import Difference, Off, Reading, Sized, Tool, Wear, difference, size
from spanbook.ground.matching import words
from spanbook.ground.measures import MM_OF, read, step
from spanbook.ground.part_numbers import folded
from spanbook.ground.standards import Dimension, Sort, Standard, named, standards
from spanbook.ground.units import UNITS, Quantity
from spanbook.reading.records import PartRecord, Size
from spanbook.register.model import Register

# Words that say which dimension a size is, for each sort of thing; the first that stands in `what` decides.
_WORDS: Mapping[Sort, Mapping[str, Dimension]] = {
    Sort.THREAD: {
        "bore": Dimension.MINOR,
        "minor": Dimension.MINOR,
        "pitch": Dimension.PITCH,
        "thread": Dimension.DIAMETER,
        "diameter": Dimension.DIAMETER,
    },
    Sort.JAW: {"flats": Dimension.ACROSS, "jaw": Dimension.ACROSS},
    Sort.O_RING: {
        "section": Dimension.SECTION,
        "thickness": Dimension.SECTION,
        "inside": Dimension.INSIDE,
        "bore": Dimension.INSIDE,
    },
    Sort.BEARING: {
        "bore": Dimension.INSIDE,
        "inside": Dimension.INSIDE,
        "outside": Dimension.OUTSIDE,
        "width": Dimension.WIDTH,
    },
    Sort.SIEVE: {"opening": Dimension.GAP, "gap": Dimension.GAP, "mesh": Dimension.GAP},
    Sort.DRILL: {"hole": Dimension.DIAMETER, "drill": Dimension.DIAMETER},
    Sort.TUBE: {"outside": Dimension.OUTSIDE},
}
# Which dimensions give away what sort of thing it is: a diameter alone may be a thread's, a hole's, a pin's.
_TOLD_BY_SIZES = (
    (Sort.BEARING, {Dimension.INSIDE, Dimension.OUTSIDE, Dimension.WIDTH}),
    (Sort.O_RING, {Dimension.SECTION, Dimension.INSIDE}),
    (Sort.THREAD, {Dimension.DIAMETER, Dimension.PITCH}),
    (Sort.THREAD, {Dimension.MINOR, Dimension.PITCH}),
    (Sort.JAW, {Dimension.ACROSS}),
)
_INCH = 25.4


@dataclass(frozen=True, slots=True)
class Excluded:
    """A size that cannot be of the standard it names, and how far it is off."""

    size: Size
    standard: Standard
    difference: Difference


def dimension_of(what: str, sort: Sort) -> Dimension | None:
    """Which dimension of that sort of thing the words of a size mean."""
    said = words(what)
    return next((dimension for word, dimension in _WORDS[sort].items() if word in said), None)


def excluded(one: Size) -> Excluded | None:
    """Whether a size excludes the standard it names; None where it does not, or the standard is not known."""
    standard = named(one.standard) if one.standard else None
    if standard is None:
        return None
    reading = _reading(one, standard.sort)
    if reading is None or standard.zone(reading.what) is None:
        return None
    found = difference(standard, reading)
    if found.off is Off.FITS or (found.off is Off.WORN and one.state in (None, "used", "worn")):
        return None
    return Excluded(one, standard, found)


def by_sizes(sizes: Sequence[Size], recorded: Mapping[Sort, Mapping[str, int]]) -> Sized | None:
    """What a thing with these sizes is the same size as; None unless they give away what sort of thing it is.

    Of a bolt with a thread and a head it is the thread.
    """
    for sort, wanted in _TOLD_BY_SIZES:
        readings = [reading for reading in (_reading(one, sort) for one in sizes) if reading]
        if {reading.what for reading in readings} == wanted and len(readings) == len(wanted):
            return size(readings, (one for one in standards() if one.sort is sort), recorded.get(sort, {}))
    return None


def of_each(sizes: Iterable[Size]) -> Iterator[tuple[str | None, list[Size]]]:
    """Sizes measured together by the part that they are of: its number, None for those of no part."""
    found: dict[tuple[str, str | None], list[Size]] = {}
    for one in sizes:
        found.setdefault((folded(one.number or ""), one.means), []).append(one)
    yield from ((those[0].number, those) for those in found.values())


def _reading(one: Size, sort: Sort) -> Reading | None:
    """A size as a reading, if it is a length and its words say which dimension it is, or counts threads."""
    if sort is Sort.THREAD and UNITS[one.unit].of is Quantity.THREADS_TO_LENGTH:
        return _pitch(one)
    what = dimension_of(one.what, sort)
    if what is None or one.unit not in MM_OF:
        return None
    unit = MM_OF[one.unit]
    low, high = read(one.value) * unit, read(one.to or one.value) * unit
    if low > high or low <= 0:
        return None
    # A fraction is a name as much as a reading: nobody means to the nearest half by 1 1/2.
    either = 0 if "/" in one.value else step(one.value) * unit / 2
    tool = Tool(one.read_with) if one.read_with else Tool.CALIPER
    wear = Wear(one.state) if one.state else Wear.USED
    return Reading(what, float(low - either), float(high + either), tool, wear)


def _pitch(one: Size) -> Reading | None:
    """Threads counted over an inch as the pitch; whoever does not say how has tried them with a gauge."""
    fewest, most = sorted((read(one.value), read(one.to or one.value)))
    if fewest <= 0:
        return None
    tool = Tool(one.read_with) if one.read_with else Tool.THREAD_GAUGE
    return Reading(Dimension.PITCH, _INCH / float(most), _INCH / float(fewest), tool)


def recorded_standards(register: Register) -> Mapping[Sort, Mapping[str, int]]:
    """How many things of each series of standard sizes are recorded, each part and standard once."""
    found = {(key, standard.sort, standard) for key, standard in _named(register)}
    counts: dict[Sort, Counter[str]] = {}
    for _, sort, standard in found:
        counts.setdefault(sort, Counter())[standard.series] += 1
    return counts


def _named(register: Register) -> Iterator[tuple[str, Standard]]:
    for record in register.part_records.values():
        yield from ((record.id, standard) for standard in standards_of(record))


def standards_of(record: PartRecord) -> Iterator[Standard]:
    """The standard sizes that a part's sizes name."""
    for one in record.sizes:
        if standard := named(one.standard) if one.standard else None:
            yield standard
