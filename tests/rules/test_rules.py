"""Every rule is named, explained, and does to its own examples what it says."""

from __future__ import annotations

import pkgutil
import re
from importlib import import_module
from pathlib import Path

import spanbook
from spanbook import rules
from spanbook.reading.problems import Rule, Severity, errors
from spanbook.wording import rules as words
from tests.support import worlds
from tests.support.rows import each_row
from tests.support.tries import some

RULES = each_row("rule", rules.RULES.values())
FAMILY = {rule: family for family, found in rules.FAMILIES.items() for rule in found}
SOME = each_row("rule", some(rules.RULES.values(), FAMILY.get))


def test_names_are_unique_words_joined_by_hyphens() -> None:
    names = [rule.name for family in rules.FAMILIES.values() for rule in family]
    assert len(names) == len(set(names))
    assert all(re.fullmatch(r"[a-z]+(-[a-z]+)+", name) for name in names)


def test_every_rule_of_the_package_is_in_the_one_list() -> None:
    modules = [module.name for module in pkgutil.walk_packages(spanbook.__path__, "spanbook.")]
    made = {
        value.name
        for name in modules
        if name != "spanbook.__main__"
        for value in vars(import_module(name)).values()
        if isinstance(value, Rule)
    }
    assert made == set(rules.RULES)


def test_every_module_of_rules_is_a_family_and_has_a_title() -> None:
    modules = {module.name for module in pkgutil.iter_modules(rules.__path__)} - {
        "check",
        "checking",
        "sorts",
        "verdicts",
    }
    assert modules <= set(rules.FAMILIES) == set(words.FAMILIES)


def test_reason_is_a_sentence() -> None:
    reasons = {name: rule.reason for name, rule in rules.RULES.items()}
    assert [name for name, said in reasons.items() if not (said[0].isupper() and said.endswith("."))] == []


def test_the_base_world_has_nothing_wrong(tmp_path: Path) -> None:
    assert worlds.check(tmp_path).problems == ()


@SOME
def test_the_bad_example_breaks_the_rule_in_one_of_its_files(rule: Rule, tmp_path: Path) -> None:
    problems = worlds.check(tmp_path / rule.name, rule.bad).problems
    found = [p for p in problems if p.name == rule.name]
    assert found
    assert all(p.severity is rule.severity for p in found)
    assert {p.place.path for p in found} <= set(worlds.paths(rule.bad))
    assert all(p.read and p.todo for p in found)
    # With warnings and advice a site can still be built.
    assert bool(errors(problems)) == (rule.severity is Severity.ERROR)


@SOME
def test_the_good_example_is_sound(rule: Rule, tmp_path: Path) -> None:
    problems = worlds.check(tmp_path / rule.name, rule.good).problems
    assert rule.name not in {p.name for p in problems}
    assert errors(problems) == ()
