"""What nobody can tell apart yet, as questions to the owners of machines that may have one or the other."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from spanbook.answers.ever import union
from spanbook.answers.questions import About, Question
from spanbook.answers.signs.key import Key
from spanbook.answers.signs.things import Thing
from spanbook.ground.intervals import SpanSet
from spanbook.reading.records import Series

UNSURE = 0.1  # of what a thing looks like, where it is known which it is


def signs_asked(series: Series, keys: Iterable[Key]) -> Iterator[Question]:
    """What tells the pairs apart that no sign does, where signs are recorded at all."""
    for key in keys:
        for one, other in key.unparted if key.signs else ():
            asked = (_numbers(key, series, one) | _numbers(key, series, other)) & series.issued
            if asked:
                both = (*one.assemblies, *other.assemblies)
                yield Question(About.ALIKE, key.position, series, asked, UNSURE, both)


def _numbers(key: Key, series: Series, thing: Thing) -> SpanSet:
    """The machines of a series that may have a thing."""
    placed = key.fits.placed(series, key.position)
    return union(one.reach.possibly for one in placed if one.fitting.assembly in thing.assemblies)
