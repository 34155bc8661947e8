"""Standard sizes: what a thing is likely to be, what would have to be true, and what to measure next."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.sizing import Difference, Likely, Measure, Off, Sized, Tool
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms, ngettext
from spanbook.ground.punctuation import headed, labelled
from spanbook.ground.standards import Dimension, Sort, Standard
from spanbook.wording.grammar import capital, decimals, listed

SORTS = {
    Sort.THREAD: marked("a thread"),
    Sort.JAW: marked("a spanner's jaw, or the head it is for"),
    Sort.O_RING: marked("an O-ring"),
    Sort.BEARING: marked("a bearing"),
    Sort.SIEVE: marked("the opening of a sieve"),
    Sort.DRILL: marked("a drill"),
    Sort.TUBE: marked("a tube"),
}
_NAMED = {
    Sort.THREAD: marked_forms("thread", "threads"),
    Sort.JAW: marked_forms("head", "heads"),
    Sort.O_RING: marked_forms("O-ring", "O-rings"),
    Sort.BEARING: marked_forms("bearing", "bearings"),
    Sort.SIEVE: marked_forms("sieve", "sieves"),
    Sort.DRILL: marked_forms("drill", "drills"),
    Sort.TUBE: marked_forms("tube", "tubes"),
}
DIMENSIONS = {
    Dimension.DIAMETER: marked("its diameter"),
    Dimension.MINOR: marked("its bore"),
    Dimension.PITCH: marked("its pitch"),
    Dimension.ANGLE: marked("the angle of its flanks"),
    Dimension.ACROSS: marked("its width across flats"),
    Dimension.INSIDE: marked("its bore"),
    Dimension.OUTSIDE: marked("its outside diameter"),
    Dimension.SECTION: marked("its section"),
    Dimension.WIDTH: marked("its width"),
    Dimension.GAP: marked("its opening"),
}
_TOOLS = {
    Tool.CALIPER: marked("a caliper"),
    Tool.MICROMETER: marked("a micrometer"),
    Tool.THREAD_GAUGE: marked("a thread gauge"),
    Tool.FEELER: marked("a feeler gauge"),
}
MIND = marked("Mind")  # before a caution
# A standard size that was typed, for the finder's list.
TYPED = {
    Sort.THREAD: marked("a thread of {angle}°, {pitch}, by {source}"),
    Sort.BEARING: marked("a bearing, by {source}"),
    Sort.O_RING: marked("an O-ring, by {source}"),
}
SAME_SIZE = marked(
    "The same size by a standard is not yet the same thing: it tells nothing of material, strength and fit."
)
METRIC = ("M", "BA")  # their pitches are given in millimetres
_CAUTIONS = {
    Sort.THREAD: marked(
        "Threads of 55° and of 60° start in one another and then strip, most of all 1/2 and 3/4 BSP and NPT, "
        "which share 14 threads to the inch. Never force one."
    ),
    Sort.JAW: marked(
        "Before the 1940s a Whitworth head was one jaw larger than modern tables give it "
        "(BS 1083; from memory)."
    ),
    Sort.BEARING: marked(
        "An old inch bearing may be near a metric one and not the same: measure all three sizes."
    ),
}
MOST = 5  # of one sort
NOTHING = marked("No standard size in the tables has these dimensions.")


def standard_words(standard: Standard) -> str:
    """What a standard size is: `a thread of 55°, 18 to the inch, by BS 84`."""
    angle, pitch = standard.zone(Dimension.ANGLE), standard.zone(Dimension.PITCH)
    return _(TYPED[standard.sort]).format(
        angle=decimals(f"{angle.middle:g}") if angle else "",
        pitch=pitch_words(pitch.middle, metric=standard.series in METRIC) if pitch else "",
        source=standard.source,
    )


def pitch_words(pitch: float, *, metric: bool) -> str:
    """A pitch as its standard gives it: `1.5 mm pitch`, `18 to the inch`."""
    if metric:
        return _("{pitch} mm pitch").format(pitch=decimals(f"{pitch:g}"))
    return _("{count} to the inch").format(count=decimals(f"{25.4 / pitch:.4g}"))


def typed_caution(sort: Sort) -> str:
    """What to mind where a size was only typed: the usual cautions of its sort."""
    return _(_CAUTIONS.get(sort, SAME_SIZE))


def sort_words(found: Sized) -> str:
    """What it is taken as: the heading of a list of likely sizes."""
    return _("As {sort}:").format(sort=_(SORTS[found.sort]))


def likely_words(one: Likely) -> str:
    """`5/16 BSW: 92 in 100. 0.05 mm would have to be worn off its diameter. By BS 84.`"""
    needed = [difference_words(d) for d in one.differences if d.off is not Off.FITS]
    must = f" {capital(listed(needed))}." if needed else ""
    by = _("By {source}.").format(source=one.standard.source)
    return labelled(one.standard.name, f"{chance_words(one.probability)}.{must} {by}")


def chance_words(chance: float) -> str:
    """A chance as so many in a hundred: never certain, and never nothing."""
    if chance > 0.99:
        return _("over 99 in 100")
    if chance < 0.01:
        return _("under 1 in 100")
    return _("{count} in 100").format(count=f"{100 * chance:.0f}")


def likely_listed(found: Sized) -> Iterator[str]:
    """The likely sizes of a sort, the likeliest first; no more than anybody compares."""
    yield from (likely_words(one) for one in found.likely[:MOST])


def difference_words(one: Difference) -> str:
    """What would have to be true of one dimension."""
    match one.off:
        case Off.WORN:
            message = _("{by} would have to be worn off at {what}")
        case Off.OVER:
            message = _("{what} is {by} more than it allows")
        case Off.UNDER:
            message = _("{what} is {by} less than it allows")
        case Off.FITS:
            return _("{what} fits").format(what=_(DIMENSIONS[one.what]))
    return message.format(what=_(DIMENSIONS[one.what]), by=_by(one))


def _by(one: Difference) -> str:
    if one.what is Dimension.ANGLE:
        return f"{one.by:.0f}°"
    return decimals(f"{one.by * 1000 / 25.4:.0f} thou ({one.by:.2f} mm)")


def recorded_words(found: Sized) -> str:
    """What was taken as likely before anything was measured: `12 of 14 threads recorded here are BSW.`"""
    if not found.recorded or list(found.recorded) == [""]:
        return ""  # nothing, or a sort that has one series
    series, most = max(found.recorded.items(), key=lambda one: (one[1], one[0]))
    every = sum(found.recorded.values())
    sorts = ngettext(*_NAMED[found.sort], every)
    if every == 1:
        return _("The only {sort} recorded here is {series}.").format(sort=sorts, series=series)
    message = _("{most} of {every} {sorts} recorded here are {series}.")
    return message.format(most=most, every=every, sorts=sorts, series=series)


def next_words(found: Sized) -> str:
    """What to measure to part the first two; that nothing in reach does, where there are two."""
    if len(found.likely) < 2:
        return ""
    first, second = (one.standard.name for one in found.likely[:2])
    if found.next is None:
        message = _("Nothing that a bench measures parts {first} and {second}.")
        return message.format(first=first, second=second)
    message = _("{measure} parts {first} and {second}.")
    return message.format(measure=_measure_words(found.next), first=first, second=second)


def _measure_words(measure: Measure) -> str:
    if measure.what is Dimension.ANGLE:
        return _("A thread gauge laid into its flanks against the light")
    return capital(
        _("{tool} on {what}").format(tool=_(_TOOLS[measure.tool]), what=_(DIMENSIONS[measure.what]))
    )


def caution_words(found: Iterable[Sized]) -> Iterator[str]:
    """What can go wrong with what is the same size."""
    sorts = [one.sort for one in found]
    yield from (_(_CAUTIONS[sort]) for sort in sorts if sort in _CAUTIONS)
    if sorts:
        yield _(SAME_SIZE)


def of_words(number: str | None) -> str:
    """Whose sizes were taken together, where several things were measured: before what they come to."""
    if number:
        return headed(number)
    return _("What was measured without a part number, if it is all of one thing:")


def same_size_words(found: Sized) -> str:
    """What a recorded thing is the same size as: `By its sizes it is the same as the bearing 6203 …`"""
    best = found.likely[0]
    told = _("By its sizes it is the same as the {sort} {size}, {chance}, by {source}.").format(
        sort=ngettext(*_NAMED[found.sort], 1),
        size=best.standard.name,
        chance=chance_words(best.probability),
        source=best.standard.source,
    )
    return f"{told} {_(SAME_SIZE)}"
