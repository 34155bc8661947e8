"""What records are checked for: every rule with its reason, and with an example of each side a page for each
family, where the reader is led for them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from spanbook.ground.punctuation import labelled
from spanbook.reading.problems import Rule, Severity
from spanbook.rules import FAMILIES, RULES
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import Link, SitePage
from spanbook.site.rows import piece_address
from spanbook.wording import rules as words
from spanbook.wording.pages import rules as rules_page


@dataclass(frozen=True, slots=True)
class RuleEntry:
    """`refused` and `accepted` are the two sides, on the page of its family."""

    rule: Rule
    refused: tuple[words.Line, ...] = ()
    accepted: tuple[words.Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Family:
    """`examples` is where its examples are."""

    id: str
    title: str
    examples: str
    entries: tuple[RuleEntry, ...]


@dataclass(frozen=True, slots=True)
class RulesView:
    severities: Mapping[Severity, str]
    families: tuple[Family, ...]


@dataclass(frozen=True, slots=True)
class ExamplesView:
    entries: tuple[RuleEntry, ...]


def pages(site: Site) -> Iterator[SitePage]:
    every = rules_page(len(RULES))
    families = tuple(map(_family, FAMILIES))
    page = SitePage(
        address=addresses.RULES,
        title=every.title,
        summary=every.summary,
        sort="List",
        crumbs=(),
        template="views/rules.html",
        view=RulesView(words.severities(), families),
    )
    yield page
    for family in families:
        yield replace(
            page,
            address=family.examples,
            title=labelled(page.title, family.title),
            summary=words.examples_summary(),
            crumbs=(Link(page.title, page.address),),
            template="views/rule_examples.html",
            view=ExamplesView(tuple(_with_examples(entry.rule) for entry in family.entries)),
            piece_of=page.address,
        )


def _family(name: str) -> Family:
    examples = piece_address(addresses.RULES, name.replace("_", "-"))
    entries = tuple(map(RuleEntry, FAMILIES[name]))
    return Family(f"rules-of-{name}", words.family_title(name), examples, entries)


def _with_examples(rule: Rule) -> RuleEntry:
    return RuleEntry(rule, *words.examples(rule))
