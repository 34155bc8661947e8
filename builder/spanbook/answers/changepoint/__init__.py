"""Where production changed: a discrete posterior over the first number with the later assembly.

What is printed is the prior, what teardowns saw the observations. Everything is exact, in fractions, and over
runs of numbers rather than single ones, whatever the length of a range.
"""

from __future__ import annotations

from spanbook.answers.changepoint.looks import Look, gain
from spanbook.answers.changepoint.misfits import Misfit
from spanbook.answers.changepoint.posteriors import Observation, Posterior, posterior
from spanbook.answers.changepoint.priors import Claim, EvenRun, Prior, agreed, prior
from spanbook.answers.changepoint.rates import CLASSES, GUESSED, Rates, Weights
from spanbook.answers.changepoint.reports import Report, Share, report

__all__ = [
    "CLASSES",
    "GUESSED",
    "Claim",
    "EvenRun",
    "Look",
    "Misfit",
    "Observation",
    "Posterior",
    "Prior",
    "Rates",
    "Report",
    "Share",
    "Weights",
    "agreed",
    "gain",
    "posterior",
    "prior",
    "report",
]
