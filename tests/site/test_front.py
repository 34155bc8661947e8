"""The front page: the machines as plates, how much is recorded, what was seen last and what is asked."""

from __future__ import annotations

import re

import pytest

from spanbook.answers.question_anchor import anchor
from spanbook.site.common import Site
from spanbook.site.views import front, questions
from tests.support.demo import shown


@pytest.fixture(scope="module")
def site() -> Site:
    return shown()


def test_every_machine_has_its_plate(site: Site) -> None:
    plates = re.findall(r'<div class="sb-brass">.*?</div>', front(site), re.DOTALL)
    for machine, plate in zip(site.register.machines.values(), plates, strict=True):
        assert machine.title in plate
        assert machine.maker in plate
        assert plate.count('class="sb-number"') == len(machine.series)


def test_it_counts_what_is_recorded(site: Site) -> None:
    made, register = front(site), site.register
    nothing = sum(one.kind == "absence" for one in register.assemblies.values())
    assert nothing
    assert f">{len(register.assemblies) - nothing} assemblies</a>" in made
    assert f">{len(register.parts)} part numbers</a>" in made
    assert f">{len(register.teardowns)} teardowns</a>" in made
    assert f">{len(register.sources)} sources</a>" in made


def test_what_was_seen_last_stands_first(site: Site) -> None:
    dates = sorted((one.date for one in site.register.teardowns.values()), reverse=True)
    newest = front(site).partition("front-newest")[2].partition("</section>")[0]
    assert re.findall(r", (\d{4}[-\d]*):", newest) == dates[:3]


def test_the_worthiest_questions_are_asked(site: Site) -> None:
    asked = front(site).partition('id="front-asked"')[2]
    assert asked.count('href="open-questions/#') == 3


def test_what_is_put_together_of_each_series_is_the_worthiest_of_all(site: Site) -> None:
    """The order of all of them is that of a register asked at once."""
    told = [questions.EACH.told(site, series) for series in questions.EACH.things(site)]
    asked = [one for one in told if isinstance(one, questions.Asked)]
    whole = site.answers.questions
    rows = questions.worthiest(asked)
    assert len(asked) > 2
    assert [row.anchor for row in rows] == [anchor(one) for one in whole[: questions.WORTHIEST]]
    assert sum(one.many for one in asked) == len(whole)
    assert front(site, rows) == front(site)
    assert front(site, rows[1:]) != front(site)
    (page,) = questions.pages(site)
    assert page == questions.page_of(asked)


def test_both_boxes_ask_the_page_of_results(site: Site) -> None:
    assert re.findall(r'<form class="sb-box" action="([^"]+)" method="get">', front(site)) == ["find/"] * 2
    assert front(site).count('name="q"') == 2
