"""What is retired keeps its page and every address, and leads on; nothing is answered from it."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.command import run
from tests.support.demo import demo


def test_its_page_says_why_and_leads_on(demo_site: Path) -> None:
    page = (demo_site / "assemblies/capless-breather/index.html").read_text()
    told = re.sub("<[^>]*>", "", page)
    assert "Retired: It was a mushroom breather that had lost its cap. Now: Mushroom breather." in told
    assert '<a href="../../assemblies/mushroom-breather/">Mushroom breather</a>.' in page
    assert '<li id="span-hk">' in page
    assert "assemblies/capless-breather/#span-hk" in (demo_site / "addresses.txt").read_text().splitlines()


def test_no_machine_has_it() -> None:
    register = demo()
    (card,) = register.fits("HK 5")
    held = {fit.assembly.id for place in card.positions for fit in place.fits}
    assert "mushroom-breather" in held
    assert "capless-breather" not in held


def test_its_position_lists_what_is_there_without_it(demo_site: Path) -> None:
    page = (demo_site / "positions/crankcase/breather/index.html").read_text()
    assert "Mushroom breather" in page
    assert "capless" not in page


def test_a_find_of_one_of_several_names_them_all(demo_site: Path) -> None:
    page = re.sub("<[^>]*>", "", (demo_site / "teardowns/hk-1402-brindle/index.html").read_text())
    assert "Found: Metal-edge strainer or Waste-packed bypass filter" in page


def test_a_series_keeps_its_page_and_its_anchor_and_leads_on(demo_site: Path) -> None:
    page = (demo_site / "series/dr/index.html").read_text()
    told = re.sub("<[^>]*>", "", page)
    assert "the number is the old one. Now: DT series." in told
    assert 'href="../../machines/wexmoor-d/#series-dt"' in page
    assert "Every position over the whole series" not in told
    assert '<h2 id="series-dr">' in (demo_site / "machines/wexmoor-d/index.html").read_text()
    public = (demo_site / "addresses.txt").read_text().splitlines()
    assert {"series/dr/", "machines/wexmoor-d/#series-dr"} <= set(public)


def test_nothing_is_answered_from_a_series() -> None:
    register = demo()
    assert not register.fits("DR 222")
    listed = run("questions", "--json").output
    assert '"series": "dt"' in listed
    assert '"series": "dr"' not in listed


def test_whoever_asks_by_a_number_of_a_series_is_led_on() -> None:
    assert run("ask", "DR 222").output == (
        "DR 222, Wexmoor Type D launch engine: DR series. Retired: The R was punched over the T when the "
        "works overhauled an engine; the number is the old one. Now: DT series.\n"
    )
    (found,) = json.loads(run("ask", "--json", "DR 222").output)["retired"]
    assert (found["series"], found["number"], found["now"]) == ("dr", 222, ["dt"])


SERIES = """\
# file: content/machines/x.yml
kind: machine
id: x
title: X
maker: Example Works
series:
- {id: xa, stamped: "XA {number}", plate: engine, first: 1, last: 40, evidence: [{source: book}]}
- {id: xr, stamped: "XR {number}", plate: engine, first: 1, last: 40, %s, evidence: [{source: book}]}
"""


@pytest.mark.parametrize(
    ("retired", "more", "told"),
    [
        ("retired: Misread, now: [xa]", "", None),
        ("retired: Misread, now: [xr]", "", ("retired-leads-nowhere", "xr, which is retired as well")),
        ("now: [xa]", "", ("retired-leads-nowhere", "now xa, and it is not retired")),
        (
            "retired: Misread, now: [xa]",
            "XR",
            ("retired-named", "xr, which is retired; name what it was: xa"),
        ),
        ("retired: Misread", "XR", ("retired-named", "xr, which is retired; take it out")),
    ],
)
def test_what_the_rules_hold(tmp_path: Path, retired: str, more: str, told: tuple[str, str] | None) -> None:
    """A retired series leads to one that is not, and no span is in it."""
    lid = (
        "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
        f"serials: [{{series: {(more or 'XA').lower()}, first: 1, last: 9, evidence: [{{source: book}}]}}]\n"
    )
    found = [
        (one.name, f"{one.read}; {one.todo}")
        for one in worlds.check(tmp_path, SERIES % retired + lid).problems
    ]
    found = [one for one in found if one[0].startswith("retired")]
    assert [name for name, _ in found] == ([told[0]] if told else [])
    assert all(told and told[1] in message for _, message in found)
