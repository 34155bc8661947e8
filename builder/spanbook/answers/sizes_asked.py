"""What somebody asks of a size: which dimensions the sizes written are, and among which standards to look."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.answers.sizing import Reading, Sized, Tool, Wear, size
from spanbook.ground.readings import Written, written
from spanbook.ground.standards import Dimension, Sort, Standard, standards

_INCH = 25.4
# Which dimensions sizes written side by side are: bore × outside × width, inside × section.
_TOGETHER = {
    3: ((Sort.BEARING, (Dimension.INSIDE, Dimension.OUTSIDE, Dimension.WIDTH)),),
    2: ((Sort.O_RING, (Dimension.INSIDE, Dimension.SECTION)),),
    1: (
        (Sort.THREAD, (Dimension.DIAMETER,)),
        (Sort.JAW, (Dimension.ACROSS,)),
        (Sort.TUBE, (Dimension.OUTSIDE,)),
        (Sort.DRILL, (Dimension.DIAMETER,)),
        (Sort.SIEVE, (Dimension.GAP,)),
    ),
}


@dataclass(frozen=True, slots=True)
class Asked:
    """A size as written, with what was seen besides: `per_inch` threads or a `pitch` in mm, the angle between
    the `flanks` in degrees; `inside` for the bore of a nut. `sort` None looks among all that it may be."""

    text: str
    per_inch: float | None = None
    pitch: float | None = None
    flanks: float | None = None
    inside: bool = False
    sort: Sort | None = None
    tool: Tool = Tool.CALIPER
    wear: Wear = Wear.USED


def sizes(asked: Asked, recorded: Mapping[Sort, Mapping[str, int]]) -> tuple[Sized, ...]:
    """The likely standard sizes for each sort of thing it may be, the one with the best fit first.

    `recorded` counts the series that are recorded for each sort. Raises ValueError, saying what to write,
    for what is no size, or no size of the sort asked for.
    """
    read = written(asked.text)
    found = (
        size(_readings(asked, read, dimensions), _of(sort), recorded.get(sort, {}))
        for sort, dimensions in _looked_among(asked, len(read))
    )
    return tuple(one for one in found if one)


def _of(sort: Sort) -> Iterator[Standard]:
    return (one for one in standards() if one.sort is sort)


def _looked_among(asked: Asked, count: int) -> tuple[tuple[Sort, tuple[Dimension, ...]], ...]:
    known = _TOGETHER.get(count)
    if known is None:
        raise ValueError(f"{asked.text!r} has {count} sizes; a bearing has 3, an O-ring 2, the rest 1")
    threaded = any(one is not None for one in (asked.per_inch, asked.pitch, asked.flanks)) or asked.inside
    sort = asked.sort or (Sort.THREAD if threaded and count == 1 else None)
    chosen = tuple(one for one in known if sort in (None, one[0]))
    if not chosen or (threaded and chosen[0][0] is not Sort.THREAD):
        wants = {s: n for n, sorts in _TOGETHER.items() for s, _ in sorts}
        what = sort or known[0][0]
        if threaded and what is not Sort.THREAD:
            raise ValueError(f"threads and flanks are a thread's, and {asked.text!r} is asked as {what}")
        raise ValueError(f"{asked.text!r} has {count} sizes, and {what} wants {wants[what]}")
    return chosen


def _readings(asked: Asked, read: tuple[Written, ...], dimensions: tuple[Dimension, ...]) -> list[Reading]:
    if dimensions == (Dimension.DIAMETER,) and asked.inside:
        dimensions = (Dimension.MINOR,)
    found = [
        Reading(what, float(one.low - one.step / 2), float(one.high + one.step / 2), asked.tool, asked.wear)
        for what, one in zip(dimensions, read, strict=True)
    ]
    pitch = asked.pitch or (_INCH / asked.per_inch if asked.per_inch else None)
    # Whoever has a fine tool for the diameter tries the threads with a gauge; a rule counts them.
    gauge = Tool.RULE if asked.tool in (Tool.RULE, Tool.EYE) else Tool.THREAD_GAUGE
    if pitch:
        found.append(Reading(Dimension.PITCH, pitch, pitch, gauge))
    if asked.flanks:
        found.append(Reading(Dimension.ANGLE, asked.flanks, asked.flanks, gauge))
    return found
