"""The public Python interface, as the README shows it."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

import spanbook
from spanbook.answers.applicability import State
from spanbook.ground.years import Years
from tests.support import worlds
from tests.support.command import project
from tests.support.demo import demo

PROJECT = Path(__file__).parents[2]


@pytest.mark.parametrize("path", [PROJECT, PROJECT / "content", str(PROJECT)])
def test_a_project_or_its_content_folder_opens(path: Path | str) -> None:
    assert "edge-strainer" in spanbook.open_register(path).assemblies


def test_the_question_of_the_readme() -> None:
    register = demo()
    (card,) = register.fits("hk-0588")
    places = {place.position: place for place in card.positions}
    filter_ = places["lubrication/oil-filter"]
    assert filter_.state is State.CHOICE  # the strainer, or the duplex strainer to order
    assert [fit.assembly.id for fit in filter_.fits if fit.span.fitted == "factory"] == [
        "edge-strainer",
        "duplex-strainer",
    ]
    assert card.reading.years == Years(1933, 1933)
    assert "starting/electric-start" not in places


def test_a_number_never_issued_has_no_positions() -> None:
    register = demo()
    (card,) = register.fits("HK 905")
    assert (card.reading.issued, card.positions) == (False, ())
    assert register.fits("not a number") == ()


def test_all_problems_are_raised_at_once(tmp_path: Path) -> None:
    head = "# file: content/sources/"
    worlds.lay(tmp_path, f"{head}a.yml\nkind: [", f"{head}b.yml\nkind: source\nid: b\n")
    with pytest.raises(spanbook.Problems) as raised:
        spanbook.open_register(tmp_path)
    assert {p.place.path for p in raised.value.problems} >= {
        "content/sources/a.yml",
        "content/sources/b.yml",
    }
    assert "content/sources/a.yml:2:1: error yaml-broken" in str(raised.value)


def test_a_folder_that_is_not_there(tmp_path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="no such folder"):
        spanbook.open_register(tmp_path / "nowhere")


def test_a_query_gives_what_the_box_on_the_site_finds() -> None:
    register = demo()
    found = register.ask("strainer")
    assert "Metal-edge strainer" in [document.title for document in found.documents]
    assert [reading.number for reading in register.ask("hk 588").readings] == [588]
    assert register.ask("nothing at all like it").empty


def test_standings_questions_and_totals_are_those_of_the_pages() -> None:
    register = demo()
    standings = register.standings()
    assert set(standings) == set(register.statements)
    assert spanbook.Standing.DISPUTED in {judgement.standing for judgement in standings.values()}
    assert register.questions() == register.answers.questions
    total = register.total("hk")
    assert total is not None
    assert total.estimate is not None
    assert total.highest <= total.estimate
    with pytest.raises(LookupError, match="series nowhere"):
        register.total("nowhere")


def test_the_rates_are_the_community_s_own(tmp_path: Path) -> None:
    folder = project(tmp_path)
    settings = (folder / "mkdocs.yml").read_text()
    (folder / "mkdocs.yml").write_text(
        settings.replace("plugins: [spanbook]", "plugins: [{spanbook: {rates: {converted: 0.25}}}]")
    )
    for path in (folder, folder / "content"):
        assert spanbook.open_register(path).answers.assumed.rates.converted == Fraction(1, 4)
    (folder / "mkdocs.yml").write_text(
        settings.replace("plugins: [spanbook]", "plugins: [{spanbook: {rates: {converted: many}}}]")
    )
    broken = spanbook.open_register(folder)
    assert broken.fits("XA 1")  # what no rate bears on is answered all the same
    with pytest.raises(spanbook.BuildFailed, match="rates: "):
        broken.questions()


def test_assemblies_by_their_positions() -> None:
    register = demo()
    assert register.places("edge-strainer") == {"lubrication/oil-filter": "edge-strainer"}
    with pytest.raises(LookupError, match="no record has the assembly nonsense"):
        register.places("nonsense")
