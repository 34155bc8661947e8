"""How far each statement is to be trusted: computed from its evidence and from what was seen, never typed.

- A statement is *printed* when literature says it, *recalled* when only somebody's memory does, *seen* when
  teardowns in untouched or likely original condition show it, *confirmed* when printed and seen agree,
  *unsupported* when nothing does.
- It is *disputed* when somebody saw, or printed, otherwise: when a piece of its evidence speaks against it,
  whatever sort of source that is; when another claim on the same run cannot be so too; when another standard
  is surely on the same numbers. Nothing is picked in silence: both are shown.
- A claim that says the same, or says it more exactly, speaks for the vaguer one with its evidence.
- A teardown bears on a span when its number, or every number that a worn one may be, is surely in it or is
  surely outside it and all the assembly's other runs. It supports the span where it found the assembly, and
  is against it where it found another on a number that the span surely covers, or the assembly outside.
- What explains it is no contradiction: a conversion that applies to the number and leads, in one step or
  several, to what was found; or a span of what was found that says it was fitted later or to order.
- A find that may be one of several assemblies does what each of them would do (`one_of.py`).
- Altered machines, and those of unknown condition, are set aside, with the reason said.
- What a thing shows of a sign is seen where a teardown found the thing and saw that, and disputed where one
  saw otherwise of it.
- A part in an assembly rests on its own evidence for it, else on that of the assembly's spans; it is seen
  where a teardown read its number in that assembly, and disputed where one read another in its place
  (`parts_read.py`). What a line of a list is limited to rests on its own evidence, else on the line's, and
  is weighed by the numbers that were read (`limits_read.py`). A conversion is seen where its result was found
  on a machine that may take it and did not leave the works so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from enum import StrEnum

from spanbook.answers import one_of
from spanbook.answers.act_claims import Claims
from spanbook.answers.applicability import Fits, State, claimed
from spanbook.answers.claims import Claimed
from spanbook.answers.limits_read import LimitsRead
from spanbook.answers.named import GOOD, named, together
from spanbook.answers.parts_read import PartsRead
from spanbook.answers.placed import contradict, supports
from spanbook.answers.readings import Reading
from spanbook.answers.reasons import Had, HadNumber, Measured, Reason, SameNumbers, Says, Weight
from spanbook.answers.signs_seen import SignsSeen
from spanbook.answers.steps import chain
from spanbook.ground.intervals import Covers
from spanbook.ground.measures import agree
from spanbook.ground.memo import Memo
from spanbook.ground.part_numbers import hyphened
from spanbook.reading.records import (
    Assembly,
    Conversion,
    Evidence,
    Find,
    Series,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register
from spanbook.register.statements import Fitting, Limit, Measurement, Shows, Statement, Use

Seen = tuple[Teardown, Find]
MOST_NAMED = 12  # acts that speak against one


class Standing(StrEnum):
    """How far a statement is to be trusted: computed, never typed in."""

    UNSUPPORTED = "unsupported"
    RECALLED = "recalled"
    PRINTED = "printed"
    SEEN = "seen"
    CONFIRMED = "confirmed"
    DISPUTED = "disputed"


@dataclass(frozen=True, slots=True)
class Judgement:
    """The standing of a statement, with every reason for and against it."""

    standing: Standing
    reasons: tuple[Reason, ...]


def standings(fits: Fits, only: Iterable[Statement] | None = None) -> Mapping[Statement, Judgement]:
    """The standing of every statement of a register, or `only` of some, with its reasons."""
    judge = Judge(fits)
    return {s: judge.of(s) for s in (fits.register.statements if only is None else only)}


def standing_of(reasons: Iterable[Reason]) -> Standing:
    weights = {reason.weight for reason in reasons}
    if Weight.AGAINST in weights:
        return Standing.DISPUTED
    if {Weight.PRINTED, Weight.SEEN} <= weights:
        return Standing.CONFIRMED
    for weight, standing in (
        (Weight.SEEN, Standing.SEEN),
        (Weight.PRINTED, Standing.PRINTED),
        (Weight.RECALLED, Standing.RECALLED),
    ):
        if weight in weights:
            return standing
    return Standing.UNSUPPORTED


class Judge:
    """Weighs statements, each once."""

    def __init__(self, fits: Fits) -> None:
        self.fits = fits
        self.of = Memo(self._of)
        self.parts_read = PartsRead(fits)
        self._limits_read = LimitsRead(fits, self.parts_read)
        self._signs_seen = SignsSeen(fits.register)
        self._claims = Claims(fits.register)
        self._seen = Memo(self._seen_at)

    @property
    def register(self) -> Register:
        return self.fits.register

    def _of(self, statement: Statement) -> Judgement:
        reasons = together(named(self.register, statement.evidence), self._bearing(statement))
        return Judgement(standing_of(reasons), reasons)

    def _seen_at(self, place: tuple[Series, str]) -> tuple[Seen, ...]:
        """What was found in a place, for every number of the series that tells of it."""
        series, position = place
        return tuple(
            (teardown, find)
            for teardown, find in self.fits.finds(series, position)
            if find.named
            for may_be in self.fits.possible_at((teardown, position))
            if may_be.series is series
        )

    def _bearing(self, statement: Statement) -> Iterator[Reason]:
        """What bears on a statement besides its evidence; on some sorts nothing can."""
        match subject := statement.subject:
            case Fitting():
                yield from self._about_span(subject)
            case Limit():
                yield from self._about_limit(subject)
            case Use():
                yield from self._about_part(subject, statement)
            case Measurement():
                yield from self._about_size(subject)
            case Shows():
                yield from self._signs_seen.bearing(subject)
            case Conversion():
                yield from self._about_conversion(subject)
            case Supersession():
                for act in sorted(self._claims.against(subject), key=lambda act: act.id)[:MOST_NAMED]:
                    yield from self._claims_otherwise(act, act, act.evidence)

    def _about_span(self, fitting: Fitting) -> Iterator[Reason]:
        for teardown, find in self._seen((fitting.series, fitting.assembly.position)):
            if reason := self._bears(fitting, teardown, find):
                yield reason
        yield from self._claimed_beside(fitting, self.fits.claims(fitting))
        yield from self._printed_otherwise(fitting)

    def _about_limit(self, limit: Limit) -> Iterator[Reason]:
        if all(piece.against for piece in limit.span.evidence):
            yield from named(self.register, (e for e in limit.line.evidence if not e.against))
        yield from self._limits_read.bearing(limit)
        yield from self._claimed_beside(limit, self.fits.lists.claims(limit))

    def _claimed_beside(self, mine: Claimed, claims: Iterable[Claimed]) -> Iterator[Reason]:
        """The other claims on the same run: for this one where they say it, or more exactly; against it
        where both cannot be."""
        for other in claims:
            if other is not mine and contradict(mine, other):
                yield from self._claims_otherwise(other, other.assembly, other.span.evidence)
            elif other is not mine and supports(other, mine):
                alike = supports(mine, other)
                evidence = (piece for piece in other.span.evidence if alike or not piece.against)
                for reason in named(self.register, evidence):
                    yield replace(reason, shown=None if alike else Says(other))

    def _claims_otherwise(
        self, other: Claimed | Supersession, of: Assembly | Supersession, evidence: Iterable[Evidence]
    ) -> Iterator[Reason]:
        """What is named for another claim, which is a record's, as against this one."""
        speaking = (piece for piece in evidence if not piece.against)
        reasons = [replace(r, shown=Says(other)) for r in named(self.register, speaking)]
        counting = [replace(r, weight=Weight.AGAINST) for r in reasons if r.weight is not Weight.SET_ASIDE]
        yield from counting or [Reason(Weight.AGAINST, of, None, Says(other))]

    def _bears(self, fitting: Fitting, teardown: Teardown, find: Find) -> Reason | None:
        samples = self.fits.samples((teardown, find.position))
        weights = (self.bears_at(fitting, find, reading) for reading in samples)
        weight = next(weights, None)
        if weight is None or any(other is not weight for other in weights):
            return None  # readings that do not agree count for nothing
        found, *others = (self.register.assemblies[id_] for id_ in find.named)
        if weight in (Weight.SEEN, Weight.AGAINST) and find.condition not in GOOD:
            return Reason(Weight.SET_ASIDE, teardown, None, Had(found, find.condition, tuple(others)))
        return Reason(weight, teardown, None, Had(found, None, tuple(others)))

    def bears_at(self, fitting: Fitting, find: Find, reading: Reading) -> Weight | None:
        """What a find does to a span on one reading of the number."""
        if find.one_of:
            return one_of.together(self.bears_at(fitting, one, reading) for one in one_of.each(find))
        assembly, span = fitting.assembly, fitting.span
        mine = fitting.series is reading.series
        covers = self.fits.reach(fitting).covers(reading.number) if mine else Covers.NO
        if find.assembly == assembly.id:
            if covers is not Covers.NO:
                return (
                    Weight.SEEN
                    if span.fitted == "factory" or not self._left_works(assembly, reading)
                    else None
                )
            return self._elsewhere(fitting, reading) if mine else None
        if covers is not Covers.YES or span.fitted != "factory" or span.option:
            return None
        return Weight.EXPLAINED if self._explained(assembly, find.assembly or "", reading) else Weight.AGAINST

    def _elsewhere(self, fitting: Fitting, reading: Reading) -> Weight | None:
        """Found where no run of it reaches but by other claims than this: against it, unless a conversion
        explains it."""
        claims = self.fits.claims(fitting)
        mine = (f for f in self.register.fittings_of(fitting.assembly) if f.series is reading.series)
        others = (f for f in mine if f not in claims)
        if any(self.fits.reach(f).covers(reading.number) is not Covers.NO for f in others):
            return None
        steps = self.fits.applying.to(reading)
        made = any(change.to == fitting.assembly.id for step in steps for change in step.changes)
        return Weight.EXPLAINED if made else Weight.AGAINST

    def _left_works(self, assembly: Assembly, reading: Reading) -> bool:
        """Whether a machine surely or possibly left the works with an assembly."""
        return any(fit.assembly is assembly for fit in self.fits.at(reading, assembly.position).segment.fits)

    def _explained(self, expected: Assembly, found: str, reading: Reading) -> bool:
        place = self.fits.at(reading, expected.position)
        beside = (fit for fit in place.fits if fit.span.option or fit.span.fitted != "factory")
        if any(fit.assembly.id == found for fit in beside):
            return True
        return bool(chain(self.fits.applying.to(reading), [expected.id], found))

    def _printed_otherwise(self, fitting: Fitting) -> Iterator[Reason]:
        """Other standards that are printed to be surely on the same numbers."""
        for segment in self.fits.segments(fitting.series, fitting.assembly.position):
            standards = claimed(segment.fits) if segment.state is State.CONFLICT else ()
            if any(fit.fitting is fitting for fit in standards):
                for fit in standards:
                    if fit.assembly is not fitting.assembly:
                        yield Reason(Weight.AGAINST, fit.assembly, None, SameNumbers())

    def _about_part(self, subject: Use, statement: Statement) -> Iterator[Reason]:
        assembly, number = subject.assembly, subject.number
        if all(piece.against for piece in statement.evidence):
            said = (e for span in assembly.serials for e in span.evidence if not e.against)
            printed = {e.source: replace(e, note=None) for e in said if e.source}
            yield from named(self.register, printed.values())
        for teardown, find in self.fits.finds_of(assembly.id, assembly.position):
            if statement.number in {self.register.key_of(teardown, part) for part in find.parts}:
                weight = Weight.SEEN if find.condition in GOOD else Weight.SET_ASIDE
                yield Reason(weight, teardown, None, HadNumber(number, find.condition))
        if statement.number:
            yield from self.parts_read.of(assembly).of_line.get(statement.number, ())

    def _about_size(self, subject: Measurement) -> Iterator[Reason]:
        """What was measured on machines; a difference may be wear, and is set aside."""
        key, size = self.register.key_of_record(subject.part), subject.size
        for teardown in self.register.parts[key].teardowns:
            for measured in (m for find in teardown.found for m in find.measurements if m.number):
                whose = self.register.numbering.of(teardown, None, measured.number or "", measured.means)
                if whose == key and hyphened(measured.what) == hyphened(size.what):
                    same = agree(size.written, measured.written)
                    weight = Weight.SEEN if same else Weight.SET_ASIDE
                    yield Reason(weight, teardown, None, Measured(measured, same))

    def _about_conversion(self, conversion: Conversion) -> Iterator[Reason]:
        result = self.register.assemblies[conversion.to]
        for teardown, _ in self.fits.finds_of(conversion.to, conversion.position):
            took = [
                any(step.conversion is conversion for step in self.fits.applying.to(reading))
                and not self._left_works(result, reading)
                for reading in self.fits.samples((teardown, result.position))
            ]
            if took and all(took):
                yield Reason(Weight.SEEN, teardown, None, Had(result))


def weakest(each: Iterable[Standing]) -> Standing:
    """The standing of what needs all of these to be so; disputed is the weakest."""
    ranked = [Standing.DISPUTED, *(s for s in Standing if s is not Standing.DISPUTED)]
    return min(each, key=ranked.index, default=Standing.UNSUPPORTED)
