"""What records are checked for: every rule with its reason and an example of each side."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from spanbook.reading.problems import Rule, Severity
from spanbook.rules import FAMILIES, RULES
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.wording import rules as words
from spanbook.wording.pages import rules as rules_page


@dataclass(frozen=True, slots=True)
class RuleEntry:
    rule: Rule
    refused: tuple[words.Line, ...]
    accepted: tuple[words.Line, ...]


@dataclass(frozen=True, slots=True)
class Family:
    id: str
    title: str
    entries: tuple[RuleEntry, ...]


@dataclass(frozen=True, slots=True)
class RulesView:
    severities: Mapping[Severity, str]
    families: tuple[Family, ...]


def pages(site: Site) -> Iterator[SitePage]:
    page = rules_page(len(RULES))
    yield SitePage(
        address=addresses.RULES,
        title=page.title,
        summary=page.summary,
        sort="List",
        crumbs=(),
        template="views/rules.html",
        view=RulesView(
            words.severities(),
            tuple(
                Family(f"rules-of-{name}", words.family_title(name), tuple(map(_entry, rules)))
                for name, rules in FAMILIES.items()
            ),
        ),
    )


def _entry(rule: Rule) -> RuleEntry:
    return RuleEntry(rule, *words.examples(rule))
