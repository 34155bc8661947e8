"""A rule together with the function that finds its breaches."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from spanbook.answers.applicability import Fits
from spanbook.reading.problems import Finding, Rule
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Check:
    rule: Rule
    find: Callable[[Register], Iterator[Finding]]


@dataclass(frozen=True, slots=True)
class FitsCheck:
    """The same for a function that asks what fits: all of them share what was computed once."""

    rule: Rule
    find: Callable[[Fits], Iterator[Finding]]
