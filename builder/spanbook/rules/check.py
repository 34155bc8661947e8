"""A rule together with the function that finds its breaches."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from spanbook.reading.problems import Finding, Rule
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Check:
    rule: Rule
    find: Callable[[Register], Iterator[Finding]]
