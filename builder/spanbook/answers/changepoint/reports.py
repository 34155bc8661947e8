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
from spanbook.ground.memo import kept


@dataclass(frozen=True, slots=True)
class Share:
    """What a claim weighs before and after the teardowns; nothing after those that cannot all be true."""

    run: Run
    before: Fraction
    after: Fraction


@dataclass(frozen=True)
class Report:
    """Everything about one break, worked out when it is first asked for."""

    prior: Prior
    observations: tuple[Observation, ...]
    rates: Rates

    @property
    def claim(self) -> Run:
        """What is printed; without observations it is all there is. Of claims that disagree it is from the
        first to the last number of any."""
        return self.prior.hull

    @property
    def printed_only(self) -> bool:
        return not self.observations

    @kept
    def posterior(self) -> Posterior:
        return posterior(self.prior.runs, self.observations, self.rates)

    @kept
    def shares(self) -> tuple[Share, ...]:
        """The claims in their order, or the one that all agree on, which `claim` is then."""
        return tuple(_share(part, self.prior, self.posterior) for part in self.prior.parts)

    @kept
    def none(self) -> Share | None:
        """What none of the claims has."""
        return _share(self.prior.none, self.prior, self.posterior) if self.prior.none else None

    @property
    def lowest(self) -> Run | None:
        """The interval that the low ends of the rates' ranges would give, or half the rates."""
        return self._extremes[0]

    @property
    def highest(self) -> Run | None:
        """The interval that the high ends of the rates' ranges would give, or twice the rates."""
        return self._extremes[1]

    @kept
    def _extremes(self) -> tuple[Run | None, Run | None]:
        lowest, highest = (self._interval_at(rates) for rates in self.rates.extremes())
        return lowest, highest

    def _interval_at(self, rates: Rates) -> Run | None:
        # Where nobody looked the rates do not matter.
        seen = self.observations
        found = posterior(self.prior.runs, seen, rates) if seen else self.posterior
        return None if found.contradiction else found.interval()

    @kept
    def look(self) -> Look | None:
        return next_look(self.prior.runs, self.observations, self.rates, self.posterior)

    @kept
    def misfit(self) -> Misfit | None:
        return misfit(self.prior.runs, self.observations, self.rates)


def report(prior: Prior, observations: Iterable[Observation], rates: Rates) -> Report:
    """Everything that is told of a break by what is printed and by who looked."""
    return Report(prior, tuple(sorted(observations, key=lambda o: (o.number, o.later, o.untouched))), rates)


def _share(part: Part, prior: Prior, found: Posterior) -> Share:
    """What a part has of the posterior: of every number, as much as it had of the prior there."""
    return Share(part.run, part.share, sum(_of_each(part, prior, found), Fraction(0)))


def _of_each(part: Part, prior: Prior, found: Posterior) -> Iterator[Fraction]:
    for run in prior.runs:
        if run.each and any(own.first <= run.first <= own.last for own in part.issued):
            yield part.each / run.each * found.mass(run.first, run.last)
