"""Standard sizes: what a thing is likely to be, what would have to be true, and what to measure next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.sizing import Difference, Likely, Measure, Off, Sized, Tool
from spanbook.ground.standards import Dimension, Sort, Standard
from spanbook.wording.grammar import capital, listed

SORTS = {
    Sort.THREAD: "a thread",
    Sort.JAW: "a spanner's jaw, or the head it is for",
    Sort.O_RING: "an O-ring",
    Sort.BEARING: "a bearing",
    Sort.SIEVE: "the opening of a sieve",
    Sort.DRILL: "a drill",
    Sort.TUBE: "a tube",
}
_NAMED = {
    Sort.THREAD: "thread",
    Sort.JAW: "head",
    Sort.O_RING: "O-ring",
    Sort.BEARING: "bearing",
    Sort.SIEVE: "sieve",
    Sort.DRILL: "drill",
    Sort.TUBE: "tube",
}
DIMENSIONS = {
    Dimension.DIAMETER: "its diameter",
    Dimension.MINOR: "its bore",
    Dimension.PITCH: "its pitch",
    Dimension.ANGLE: "the angle of its flanks",
    Dimension.ACROSS: "its width across flats",
    Dimension.INSIDE: "its bore",
    Dimension.OUTSIDE: "its outside diameter",
    Dimension.SECTION: "its section",
    Dimension.WIDTH: "its width",
    Dimension.GAP: "its opening",
}
_TOOLS = {
    Tool.CALIPER: "a caliper",
    Tool.MICROMETER: "a micrometer",
    Tool.THREAD_GAUGE: "a thread gauge",
    Tool.FEELER: "a feeler gauge",
}
MIND = "Mind"  # before a caution
# A standard size that was typed, for the finder's list.
TYPED = {
    Sort.THREAD: "a thread of {angle}°, {pitch}, by {source}",
    Sort.BEARING: "a bearing, by {source}",
    Sort.O_RING: "an O-ring, by {source}",
}
SAME_SIZE = (
    "The same size by a standard is not yet the same thing: it tells nothing of material, strength and fit."
)
METRIC = ("M", "BA")  # their pitches are given in millimetres
_CAUTIONS = {
    Sort.THREAD: "Threads of 55° and of 60° start in one another and then strip, most of all 1/2 and 3/4 BSP "
    "and NPT, which share 14 threads to the inch. Never force one.",
    Sort.JAW: "Before the 1940s a Whitworth head was one jaw larger than modern tables give it "
    "(BS 1083; from memory).",
    Sort.BEARING: "An old inch bearing may be near a metric one and not the same: measure all three sizes.",
}
MOST = 5  # of one sort
NOTHING = "No standard size in the tables has these dimensions."


def standard_words(standard: Standard) -> str:
    """What a standard size is: `a thread of 55°, 18 to the inch, by BS 84`."""
    angle, pitch = standard.zone(Dimension.ANGLE), standard.zone(Dimension.PITCH)
    return TYPED[standard.sort].format(
        angle=f"{angle.middle:g}" if angle else "",
        pitch=pitch_words(pitch.middle, metric=standard.series in METRIC) if pitch else "",
        source=standard.source,
    )


def pitch_words(pitch: float, *, metric: bool) -> str:
    return f"{pitch:g} mm pitch" if metric else f"{25.4 / pitch:.4g} to the inch"


def typed_caution(sort: Sort) -> str:
    """What to mind where a size was only typed: the usual cautions of its sort."""
    return _CAUTIONS.get(sort, SAME_SIZE)


def sort_words(found: Sized) -> str:
    """What it is taken as: the heading of a list of likely sizes."""
    return f"As {SORTS[found.sort]}:"


def likely_words(one: Likely) -> str:
    """`5/16 BSW: 92 in 100. 0.05 mm would have to be worn off its diameter. By BS 84.`"""
    needed = [difference_words(d) for d in one.differences if d.off is not Off.FITS]
    must = f" {capital(listed(needed))}." if needed else ""
    return f"{one.standard.name}: {chance_words(one.probability)}.{must} By {one.standard.source}."


def chance_words(chance: float) -> str:
    """A chance as so many in a hundred: never certain, and never nothing."""
    if chance > 0.99:
        return "over 99 in 100"
    return f"{100 * chance:.0f} in 100" if chance >= 0.01 else "under 1 in 100"


def likely_listed(found: Sized) -> Iterator[str]:
    """The likely sizes of a sort, the likeliest first; no more than anybody compares."""
    yield from (likely_words(one) for one in found.likely[:MOST])


def difference_words(one: Difference) -> str:
    """What would have to be true of one dimension."""
    what, by = DIMENSIONS[one.what], _by(one)
    match one.off:
        case Off.WORN:
            return f"{by} would have to be worn off at {what}"
        case Off.OVER:
            return f"{what} is {by} more than it allows"
        case Off.UNDER:
            return f"{what} is {by} less than it allows"
        case Off.FITS:
            return f"{what} fits"


def _by(one: Difference) -> str:
    if one.what is Dimension.ANGLE:
        return f"{one.by:.0f}°"
    return f"{one.by * 1000 / 25.4:.0f} thou ({one.by:.2f} mm)"


def recorded_words(found: Sized) -> str:
    """What was taken as likely before anything was measured: `12 of 14 threads recorded here are BSW.`"""
    if not found.recorded or list(found.recorded) == [""]:
        return ""  # nothing, or a sort that has one series
    series, most = max(found.recorded.items(), key=lambda one: (one[1], one[0]))
    every = sum(found.recorded.values())
    one, more = f"The only {_NAMED[found.sort]} recorded here is {series}", _NAMED[found.sort] + "s"
    return f"{one}." if every == 1 else f"{most} of {every} {more} recorded here are {series}."


def next_words(found: Sized) -> str:
    """What to measure to part the first two; that nothing in reach does, where there are two."""
    if len(found.likely) < 2:
        return ""
    first, second = (one.standard.name for one in found.likely[:2])
    if found.next is None:
        return f"Nothing that a bench measures parts {first} and {second}."
    return f"{_measure_words(found.next)} parts {first} and {second}."


def _measure_words(measure: Measure) -> str:
    if measure.what is Dimension.ANGLE:
        return "A thread gauge laid into its flanks against the light"
    return f"{capital(_TOOLS[measure.tool])} on {DIMENSIONS[measure.what]}"


def caution_words(found: Iterable[Sized]) -> Iterator[str]:
    """What can go wrong with what is the same size."""
    sorts = [one.sort for one in found]
    yield from (_CAUTIONS[sort] for sort in sorts if sort in _CAUTIONS)
    if sorts:
        yield SAME_SIZE


def of_words(number: str | None) -> str:
    """Whose sizes were taken together, where several things were measured: before what they come to."""
    return f"{number}:" if number else "What was measured without a part number, if it is all of one thing:"


def same_size_words(found: Sized) -> str:
    """What a recorded thing is the same size as: `By its sizes it is the same as the bearing 6203 …`"""
    best = found.likely[0]
    name, chance = f"{_NAMED[found.sort]} {best.standard.name}", chance_words(best.probability)
    return f"By its sizes it is the same as the {name}, {chance}, by {best.standard.source}. {SAME_SIZE}"
