"""What a find means on one machine: as recorded, come later, against the records, or new to them.

It goes by the same weights as standings do, so that no page calls a contradiction what another explains.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from spanbook.answers.applicability import AtPosition
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judge
from spanbook.answers.steps import Step, chain
from spanbook.reading.records import Conversion, Find
from spanbook.register.statements import Fitting


class Means(StrEnum):
    """as-recorded: what it left the works with, surely or possibly. replacement: recorded as sold later.
    conversion: recorded as converted in the field, or led to by conversions. contradiction: it speaks against
    a statement. not-recorded: no record has it, or none that says anything of this machine has it here."""

    AS_RECORDED = "as-recorded"
    REPLACEMENT = "replacement"
    CONVERSION = "conversion"
    CONTRADICTION = "contradiction"
    NOT_RECORDED = "not-recorded"


@dataclass(frozen=True, slots=True)
class Meaning:
    """`through` are the conversions that lead to what was found, in their order; `against` are the spans
    that it speaks against, as far as the condition lets it count."""

    means: Means
    through: tuple[Conversion, ...] = ()
    against: tuple[Fitting, ...] = ()


def meaning(judge: Judge, find: Find, reading: Reading) -> Meaning:
    """What a find means on the machine with an issued number, by the number that tells of the position."""
    if find.assembly is None and not find.one_of:
        return Meaning(Means.NOT_RECORDED)
    place = judge.fits.at(reading, find.position)
    reading = place.reading
    fittings = judge.register.fittings.get((reading.series.id, find.position), ())
    weights = ((fitting, judge.bears_at(fitting, find, reading)) for fitting in fittings)
    against = tuple(fitting for fitting, weight in weights if weight is Weight.AGAINST)
    steps = judge.fits.applying.to(reading)
    each = [_of_assembly(place, id_, steps, against) for id_ in find.named]
    return min(each, key=lambda one: _LEAST.index(one.means))


# What one of several means is the least that any of them would.
_LEAST = (Means.AS_RECORDED, Means.REPLACEMENT, Means.CONVERSION, Means.NOT_RECORDED, Means.CONTRADICTION)


def _of_assembly(
    place: AtPosition, found: str, steps: Sequence[Step], against: tuple[Fitting, ...]
) -> Meaning:
    left = [fit.assembly.id for fit in place.segment.fits]
    later = {fit.span.fitted for fit in place.fits if fit.assembly.id == found}
    if found in left:
        return Meaning(Means.AS_RECORDED, (), against)
    if "service" in later:
        return Meaning(Means.REPLACEMENT, (), against)
    through = chain(steps, left, found)
    if through or "field" in later:
        return Meaning(Means.CONVERSION, _conversions(through), against)
    if against:
        return Meaning(Means.CONTRADICTION, (), against)
    made = [step for step in steps if any(change.to == found for change in step.changes)]
    return Meaning(Means.CONVERSION, _conversions(made[:1])) if made else Meaning(Means.NOT_RECORDED)


def _conversions(steps: Sequence[Step]) -> tuple[Conversion, ...]:
    return tuple(step.conversion for step in steps)
