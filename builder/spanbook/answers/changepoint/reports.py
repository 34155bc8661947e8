"""Everything that is told of one break."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from spanbook.answers.changepoint.looks import Look, next_look
from spanbook.answers.changepoint.misfits import Misfit, misfit
from spanbook.answers.changepoint.posteriors import Observation, Posterior, posterior
from spanbook.answers.changepoint.priors import Part, Prior
from spanbook.answers.changepoint.rates import Rates
from spanbook.ground.intervals import Run


@dataclass(frozen=True, slots=True)
class Share:
    """What a claim weighs before and after the teardowns; nothing after those that cannot all be true."""

    run: Run
    before: Fraction
    after: Fraction


@dataclass(frozen=True, slots=True)
class Report:
    """Everything about one break. `claim` is what is printed; without observations it is all there is.

    `shares` are the claims in their order, or the one that all agree on, which `claim` is then; `none` is
    what none of them has. Of claims that disagree `claim` is from the first to the last number of any.
    `lowest` and `highest` are the intervals that the ends of the rates' ranges would give, or half and twice
    the rates where they are no ranges.
    """

    claim: Run
    prior: Prior
    shares: tuple[Share, ...]
    none: Share | None
    observations: tuple[Observation, ...]
    rates: Rates
    posterior: Posterior
    lowest: Run | None
    highest: Run | None
    look: Look | None
    misfit: Misfit | None

    @property
    def printed_only(self) -> bool:
        return not self.observations


def report(prior: Prior, observations: Iterable[Observation], rates: Rates) -> Report:
    """The posterior with everything that is told of it."""
    seen = tuple(sorted(observations, key=lambda o: (o.number, o.later, o.untouched)))
    found = posterior(prior.runs, seen, rates)
    others = [posterior(prior.runs, seen, extreme) for extreme in rates.extremes()]
    lowest, highest = (None if p.contradiction else p.interval() for p in others)
    return Report(
        prior.hull,
        prior,
        tuple(_share(part, prior, found) for part in prior.parts),
        _share(prior.none, prior, found) if prior.none else None,
        seen,
        rates,
        found,
        lowest,
        highest,
        next_look(prior.runs, seen, rates, found),
        misfit(prior.runs, seen, rates),
    )


def _share(part: Part, prior: Prior, found: Posterior) -> Share:
    """What a part has of the posterior: of every number, as much as it had of the prior there."""
    return Share(part.run, part.share, sum(_of_each(part, prior, found), Fraction(0)))


def _of_each(part: Part, prior: Prior, found: Posterior) -> Iterator[Fraction]:
    for run in prior.runs:
        if run.each and any(own.first <= run.first <= own.last for own in part.issued):
            yield part.each / run.each * found.mass(run.first, run.last)
