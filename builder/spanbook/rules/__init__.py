"""The rules that records are held to, one module a family.

To add a rule: write a `Rule` (name, severity, reason, a bad and a good example) and a function that
yields a `Finding` for every breach, in the module of its family; put the pair in that module's CHECKS;
and if the module is new, name it in FAMILIES. The examples run as tests, and `check --explain NAME` and
the reference page are made from the rule. A check knows neither its name nor its severity.
"""

from __future__ import annotations

from collections.abc import Iterator

from spanbook import reading
from spanbook.reading.problems import Problem, Rule, Severity
from spanbook.register.model import Register
from spanbook.rules import (
    cautions,
    conversions,
    coverage,
    evidence,
    files,
    ids,
    links,
    names,
    photographs,
    references,
    series,
    spans,
    supersessions,
    teardowns,
)
from spanbook.rules.check import Check

FAMILIES = (
    ids,
    references,
    series,
    spans,
    coverage,
    names,
    supersessions,
    conversions,
    evidence,
    teardowns,
    cautions,
    links,
)
CHECKS: tuple[Check, ...] = tuple(check for family in FAMILIES for check in family.CHECKS)
RULES: tuple[Rule, ...] = (
    *reading.RULES,
    *(check.rule for check in CHECKS),
    *photographs.RULES,
    *files.RULES,
)


def run(register: Register, *, errors_only: bool = False) -> Iterator[Problem]:
    """Every problem that the rules find in a register."""
    for check in CHECKS:
        if errors_only and check.rule.severity is not Severity.ERROR:
            continue
        for finding in check.find(register):
            yield Problem.of(check.rule, finding)
