"""What standard size it is that was measured in a teardown, as the page of the teardown has it."""

from __future__ import annotations

import re

import pytest

from spanbook.answers.answers import Answers
from spanbook.site import views
from spanbook.site.common import Site
from spanbook.site.page import Around, SitePage
from spanbook.wording.sizing import SAME_SIZE
from tests.support.registers import record, register

TEARDOWN = """\
kind: teardown
id: xa-3-m
date: "2024"
seen-by: m
serial: XA 3
condition: untouched
found:
- position: cover
  measurements:
"""
BEARING = {"Bore": "17", "Outside diameter": "40", "Width": "12"}


def sizes(values: dict[str, str], more: str = "", unit: str = "mm") -> str:
    return "".join(
        f'  - {{what: {what}, value: "{value}", unit: {unit}{more}}}\n' for what, value in values.items()
    )


def page(*measured: str) -> str:
    made = register(record(TEARDOWN + "".join(measured), "teardown", "xa-3-m"))
    (found,) = (one for one in views.all_pages(Site(Answers(made))) if one.address == "teardowns/xa-3-m/")
    return found.to_html(Around())


def folds(html: str) -> list[str]:
    found: list[str] = re.findall(r"<details.*?</details>", html, re.DOTALL)
    return [fold for fold in found if "Which sizes it may be" in fold]


def test_a_measured_bearing_has_its_standard_size_and_what_would_have_to_be_true() -> None:
    html = page(sizes(BEARING | {"Outside diameter": "39.78"}, ", number: P-1, state: worn"))
    assert "<p>P-1: By its sizes it is the same as the bearing 6203, over 99 in 100, by ISO 15" in html
    assert html.count(SAME_SIZE) == 1
    (fold,) = folds(html)
    assert fold.startswith('<details class="sb-years"><summary>')  # folded: the page stays short
    assert '<span class="sb-unseen">: P-1</span>' in fold
    assert "(0.19 mm) would have to be worn off at its outside diameter." in fold
    assert "An old inch bearing may be near a metric one" in fold


def test_what_it_may_be_is_ranked_and_the_next_measurement_told() -> None:
    html = page(sizes({"Bore": "1.5", "Section": "0.07"}, ", read-with: rule", unit="in"))
    (fold,) = folds(html)
    chances = [int(chance) for chance in re.findall(r"<li>AS568 -\d+: (\d+) in 100", fold)]
    assert len(chances) > 1
    assert chances == sorted(chances, reverse=True)
    assert re.search(r"<p>A caliper on its (bore|section) parts AS568 -\d+ and AS568 -\d+\.</p>", fold)
    assert "What was measured without a part number, if it is all of one thing: By its sizes" in html


@pytest.mark.parametrize(
    "values",
    [
        {"Bore": "17", "Outside diameter": "40"},
        {"Bore": "17", "Outside diameter": "47.3", "Width": "12"},
        {"Depth": "12"},
    ],
    ids=["one-is-not-known", "no-standard-fits", "nothing-of-a-standard"],
)
def test_nothing_is_told_that_the_sizes_do_not_bear_out(values: dict[str, str]) -> None:
    html = page(sizes(values))
    assert "Measured" in html
    assert "By its sizes" not in html
    assert folds(html) == []


def test_sizes_of_several_parts_are_not_put_together() -> None:
    first, *rest = BEARING.items()
    html = page(sizes(dict([first]), ", number: P-1"), sizes(dict(rest), ", number: P-2"))
    assert "By its sizes" not in html
    html = page(sizes(BEARING, ", number: P-1"), sizes(BEARING, ", number: p-2"))
    assert [re.findall("P-1|p-2", fold) for fold in folds(html)] == [["P-1"], ["p-2"]]


def test_one_part_is_one_however_its_number_is_written() -> None:
    first, *rest = BEARING.items()
    assert len(folds(page(sizes(dict([first]), ", number: P-1"), sizes(dict(rest), ", number: p-1")))) == 1


def of_demo(pages: list[SitePage], address: str) -> str:
    (found,) = (one for one in pages if one.address == address)
    return found.to_html(Around())


def test_the_demonstration_shows_it(demo_pages: list[SitePage]) -> None:
    html = of_demo(demo_pages, "teardowns/dt-222-tolland/")
    assert "if it is all of one thing: By its sizes it is the same as the bearing 6203" in html
    assert len(folds(html)) == 1


def test_a_threads_page_tells_its_likely_sizes_and_what_does_not_go_together(
    demo_pages: list[SitePage],
) -> None:
    """The demonstration's bolt has its thread and the threads counted on its page."""
    html = of_demo(demo_pages, "parts/wexmoor-engine-works/wh-2262/")
    assert "By its sizes it is the same as the thread 3/8 BSF" in html
    (fold,) = folds(html)
    assert "3/8 BSF" in fold
    assert "55°" in html
