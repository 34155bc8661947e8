"""The drawing of a circuit on the pages of what hangs in it: one arrangement, as on the circuit's page."""

from __future__ import annotations

import re
from html import unescape

import pytest

from spanbook.answers.answers import Answers
from spanbook.answers.flow.figures import Worked
from spanbook.answers.flow.pieces import Arranged, positions_of
from spanbook.reading.records import Circuit, CircuitState
from spanbook.site.arrangements import Drawing, arrangements, drawings, states
from spanbook.site.common import Site
from spanbook.site.page import Around, SitePage
from tests.support.demo import demo, shown

REGISTER = demo()
SITE = shown()
OIL = REGISTER.of(Circuit)["oil-type-h"]
FILTER = "lubrication/oil-filter"


def drawn(position: str, assembly: str | None = None) -> Drawing:
    """Of the oil of the Type H."""
    found = drawings(SITE, position, REGISTER.assemblies[assembly] if assembly else None)
    return next(one for one in found if one.circuit.text == OIL.title)


def folded(pages: list[SitePage], address: str) -> str:
    page = next(page for page in pages if page.address == address)
    found = re.findall(r'<details class="sb-years sb-drawn">.*?</details>', page.to_html(Around()), re.DOTALL)
    return next(str(one) for one in found if f"<summary>{OIL.title}, drawn</summary>" in one)


@pytest.mark.slow
def test_of_an_assembly_it_runs_and_fails_as_on_the_page_of_the_circuit() -> None:
    found = drawn(FILTER, "waste-packed-filter")
    (told,) = (one for one in arrangements(SITE, OIL) if one.title == found.link.text)
    whole = {one.title: one for one in states(SITE, told.arranged)}
    titles = [one.title for one in found.states]
    assert titles[:2] == [state.title for state in OIL.states]
    assert len(whole) > len(titles) > 2, "what fails elsewhere stands on the page of the circuit alone"
    assert set(titles) <= set(whole)
    assert all(one.picture == whole[one.title].picture for one in found.states)
    assert all(one.lines == whole[one.title].lines for one in found.states)


def test_what_is_worked_out_for_one_page_is_there_for_the_next(monkeypatch: pytest.MonkeyPatch) -> None:
    site, water, asked = Site(Answers(REGISTER)), REGISTER.of(Circuit)["water-type-h"], []
    worked = Answers.worked

    def counted(answers: Answers, arranged: Arranged, state: CircuitState) -> Worked:
        asked.append((arranged, state))
        return worked(answers, arranged, state)

    monkeypatch.setattr(Answers, "worked", counted)
    pages = [tuple(drawings(site, position)) for position in positions_of(water)]
    whole = [tuple(states(site, one.arranged)) for one in arrangements(site, water) if one.drawn]
    assert len(pages) > 2
    assert all(pages)
    assert len(whole) > 1
    assert len(asked) == len(set(asked)) == sum(map(len, whole))


def test_of_several_arrangements_the_one_on_most_machines_is_drawn() -> None:
    here = [one for one in arrangements(SITE, OIL) if one.drawn]
    found = drawn(FILTER)
    assert len(here) > 2
    assert max(here, key=lambda one: one.machines).title == found.link.text
    assert len({one.machines for one in here}) > 2
    assert found.chosen
    assert found.several
    assert [one.title for one in found.states] == [state.title for state in OIL.states]


@pytest.mark.slow
@pytest.mark.parametrize("assembly", ["cartridge-filter", "waste-packed-filter", "edge-strainer"])
def test_the_arrangement_has_the_assembly(assembly: str) -> None:
    title = REGISTER.assemblies[assembly].title
    assert title in drawn(FILTER, assembly).link.text


def test_of_what_nobody_has_recorded_the_ways_nothing_is_drawn() -> None:
    assert not tuple(drawings(SITE, FILTER, REGISTER.assemblies["duplex-strainer"]))


def test_without_sizes_no_number_is_shown_on_the_page_of_the_assembly(demo_pages: list[SitePage]) -> None:
    """But those of the record itself: which machines have it, and how it runs."""
    found = drawn(FILTER, "edge-strainer")
    for state in found.states:
        assert state.picture
        assert state.picture.bands == ()
        assert [sign.figure for sign in state.picture.signs if sign.figure] == []
        assert state.lines == ()
        assert state.missing
    html = folded(demo_pages, "assemblies/edge-strainer/")
    words = unescape(re.sub(r"<[^>]*>", " ", html)).replace(found.runs, "")
    for state in found.states:
        words = words.replace(state.running, "")
    assert "No figures" in words
    assert re.findall(r"\d+", words) == []
    assert "sb-band" not in html
    with_sizes = folded(demo_pages, "assemblies/cartridge-filter/")
    assert "sb-band-sure" in with_sizes
    assert "sb-quantity" in with_sizes


def test_it_is_folded_and_leads_to_all_that_is_told(demo_pages: list[SitePage]) -> None:
    html = folded(demo_pages, f"positions/{FILTER}/")
    found = drawn(FILTER)
    assert f'href="../../../{found.link.address}"' in html
    assert 'href="../../../circuits/oil-type-h/"' in html
    assert html.count('type="radio"') == len(OIL.states)
    assert "Oil that runs is hot and under pressure" in html
