"""How probable it is that one machine left the works with each assembly, by all that the records say.

Where a break may be, by all that is printed of it, its posterior decides between the two. Elsewhere all that
is recorded there is taken as equally likely, and something unknown as one more where nothing is surely there.
A machine surely without the place left the works with nothing there.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fractions import Fraction

from spanbook.answers.applicability import Segment, State
from spanbook.answers.breaks import Break
from spanbook.answers.changepoint import Posterior, posterior
from spanbook.ground.intervals import Covers
from spanbook.reading.records import Assembly

Shares = Mapping[Assembly, Fraction]
_NONE = Fraction(0)


@dataclass(frozen=True, slots=True)
class LeftWorks:
    """The share of each assembly; what is missing to one is something that no record has there. `breaks` are
    those that decide, because the number lies where they may be."""

    shares: Shares
    breaks: tuple[Break, ...]

    def of(self, assembly: Assembly) -> Fraction:
        return self.shares.get(assembly, _NONE)


def left_works(
    segment: Segment, breaks: Iterable[Break], number: int, known: Iterable[Assembly]
) -> LeftWorks:
    """What a machine of a segment left the works with; `known` are all assemblies of the position,
    of whom it is asked only where nothing is recorded.

    What was seen on the machine itself is left out: it is not the answer that is asked for.
    """
    if segment.state is State.NO_PLACE:
        return LeftWorks({}, ())
    if segment.there is not Covers.YES:
        breaks = ()  # they say which of two it had, not whether it had a place for either
    near = [(one, _without(one, number)) for one in breaks if _may_be_at(one, number)]
    near = [(one, found) for one, found in near if not found.contradiction]
    options = _distinct(fit.assembly for fit in segment.fits if fit.span.option)
    standards = _by_breaks(near, number) if near else _by_records(segment)
    if not standards and not options:
        every = tuple(known)
        return LeftWorks({one: Fraction(1, len(every) + 1) for one in every}, ())
    each = Fraction(1, len(options) + bool(standards))
    shares = {assembly: share * each for assembly, share in standards.items()}
    for option in options:
        shares[option] = shares.get(option, Fraction(0)) + each
    return LeftWorks(shares, tuple(one for one, _ in near))


def recorded_shares(segment: Segment) -> Shares:
    """By the records of a segment alone; nothing where nothing is recorded."""
    return left_works(segment, (), segment.first, ()).shares


def _without(one: Break, number: int) -> Posterior:
    """The posterior of a break without what was seen on one machine."""
    report = one.report
    others = [look for look in report.observations if look.number != number]
    if len(others) == len(report.observations):
        return report.posterior
    return posterior(report.prior.runs, others, report.rates)


def _may_be_at(one: Break, number: int) -> bool:
    """Whether a number lies where a break may be by all that is printed of it."""
    reach = one.report.prior.reach
    return reach.first <= number <= reach.last


def _by_breaks(near: Iterable[tuple[Break, Posterior]], number: int) -> dict[Assembly, Fraction]:
    """What is not before one break is before or after the next."""
    shares: dict[Assembly, Fraction] = {}
    left = Fraction(1)
    last = None
    for one, found in near:
        after = found.mass(found.runs[0].first, number)
        shares[one.earlier] = shares.get(one.earlier, Fraction(0)) + left * (1 - after)
        left, last = left * after, one.later
    if last:
        shares[last] = shares.get(last, Fraction(0)) + left
    return shares


def _by_records(segment: Segment) -> dict[Assembly, Fraction]:
    standards = [fit for fit in segment.fits if not fit.span.option]
    all_of = _distinct(fit.assembly for fit in standards)
    unknown = not any(fit.covers is Covers.YES for fit in standards)
    return {one: Fraction(1, len(all_of) + unknown) for one in all_of}


def _distinct(assemblies: Iterable[Assembly]) -> list[Assembly]:
    return list(dict.fromkeys(assemblies))
