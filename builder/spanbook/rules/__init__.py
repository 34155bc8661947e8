"""The rules that records are held to, one module a family, and the one list of all of them.

To add a rule: write a `Rule` (name, severity, reason, a bad and a good example) and a function that
yields a `Finding` for every breach, in the module of its family; put the pair in that module's CHECKS;
and if the module is new, name it in ON_REGISTER and give it a title in `wording/rules.py`. The examples run
as tests, and `check --explain NAME`, SARIF's reasons and the page of rules are made from the rule. A check
knows neither its name nor its severity.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from spanbook.answers.applicability import Fits
from spanbook.reading import FILE_NAME, KIND_WRONG, text, value_rules, yaml
from spanbook.reading import files as record_files
from spanbook.reading.problems import Problem, Rule, Severity
from spanbook.rules import (
    addresses,
    cautions,
    circuits,
    comments,
    conversions,
    coverage,
    drawings,
    evidence,
    files,
    former,
    gone,
    ids,
    lines,
    links,
    names,
    numbers,
    pairs_and_sets,
    photographs,
    points,
    references,
    retired,
    series,
    shortfalls,
    signs,
    sizes,
    spans,
    stacks,
    stamps,
    strip_downs,
    supersessions,
    teardowns,
    units,
    years,
)
from spanbook.rules.check import Check, FitsCheck

# What is held against a register.
ON_REGISTER = (
    comments,
    ids,
    former,
    references,
    retired,
    series,
    stamps,
    spans,
    sizes,
    coverage,
    names,
    numbers,
    pairs_and_sets,
    supersessions,
    conversions,
    shortfalls,
    years,
    evidence,
    teardowns,
    units,
    lines,
    stacks,
    points,
    strip_downs,
    circuits,
    signs,
    cautions,
    links,
    gone,
)
CHECKS: tuple[Check | FitsCheck, ...] = tuple(check for family in ON_REGISTER for check in family.CHECKS)

# Every rule there is: nothing is told that is not explained here.
FAMILIES: Mapping[str, tuple[Rule, ...]] = {
    "files": (*record_files.RULES, FILE_NAME, *files.RULES),
    "text": text.RULES,
    "yaml": yaml.RULES,
    "fields": (KIND_WRONG, *value_rules.RULES),
    **{
        family.__name__.rpartition(".")[2]: tuple(check.rule for check in family.CHECKS)
        for family in ON_REGISTER
    },
    "photographs": photographs.RULES,
    "drawings": drawings.RULES,
    "addresses": addresses.RULES,
}
RULES: Mapping[str, Rule] = {rule.name: rule for family in FAMILIES.values() for rule in family}


def run(fits: Fits, *, errors_only: bool = False) -> Iterator[Problem]:
    """Every problem that the rules find in a register; what they ask of `fits` is kept there for others."""
    for check in CHECKS:
        if errors_only and check.rule.severity is not Severity.ERROR:
            continue
        found = check.find(fits) if isinstance(check, FitsCheck) else check.find(fits.register)
        for finding in found:
            yield Problem.of(check.rule, finding)
