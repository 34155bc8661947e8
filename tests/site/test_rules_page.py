"""The page of rules explains every one, with what makes the difference marked."""

from __future__ import annotations

from spanbook.answers.answers import Answers
from spanbook.reading.problems import Rule
from spanbook.rules import RULES
from spanbook.site import addresses
from spanbook.site.common import Site
from spanbook.site.page import Around
from spanbook.site.views import rules
from spanbook.wording.rules import examples, explanation
from tests.support.registers import register


def test_every_rule_has_its_anchor_reason_and_severity() -> None:
    page, *pieces = rules.pages(Site(Answers(register())))
    html = page.to_html(Around())
    told = [(one.address, one.to_html(Around())) for one in pieces]
    for rule in RULES.values():
        own = _about(rule, html)
        assert f'sb-rule-{rule.severity}">' in own
        assert rule.reason.split("'")[0] in own
        assert addresses.of_rule(rule) == f"{page.address}#{rule.name}"
        ((address, about),) = [(at, about) for at, html in told if (about := _about(rule, html))]
        assert f'href="../{address}#{rule.name}"' in own
        assert "<pre" in about
    assert sum(html.count("last: [5, 10], evidence: [{source: book}]}</mark>") for _, html in told) == 1


def _about(rule: Rule, html: str) -> str:
    """What a page tells of a rule, until the next one."""
    return html.partition(f'<h3 id="{rule.name}">')[2].partition("<h3")[0]


def test_an_example_is_cut_printable_and_marked() -> None:
    for name, rule in RULES.items():
        bad, good = examples(rule)
        assert any(line.differs for line in (*bad, *good)) or rule.bad.count("\n") > 25, name
        for lines in (bad, good):
            assert 0 < len(lines) <= 26, name
            assert all(line.text.isprintable() and len(line.text) <= 400 for line in lines), name


def test_a_common_line_is_not_marked() -> None:
    bad, good = examples(RULES["span-reversed"])
    assert [line.differs for line in bad] == [line.differs for line in good] == [False] * 6 + [True]


def test_an_explanation_has_the_reason_and_both_sides() -> None:
    for rule in RULES.values():
        text = explanation(rule)
        assert text.startswith(f"{rule.name} ({rule.severity})\n\n{rule.reason}\n\nRefused:\n\n    ")
        assert f"\n\nAccepted:\n\n    {examples(rule)[1][0].text}" in text
