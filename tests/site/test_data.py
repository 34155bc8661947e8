"""The tables of answers, and the page of the data."""

from __future__ import annotations

import json
from hashlib import sha256
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from spanbook.answers.standing import Standing
from spanbook.ground.licences import OFTEN, licence_of
from spanbook.site import permanent
from spanbook.site.data import release_of
from spanbook.site.tables import tables
from tests.support.command import CONFIG, IN_OUR_FRAME, project, run
from tests.support.demo import demo


def rows(name: str) -> list[dict[str, Any]]:
    (table,) = (one for one in tables(demo().answers) if one.name == name)
    names = [column.name for column in table.columns]
    return [dict(zip(names, row, strict=True)) for row in table.rows]


def test_what_fits_says_what_the_card_says() -> None:
    """For every position of a machine the run that its number is in, by the card."""
    (card,) = demo().fits("HK 600")
    here = [row for row in rows("answer_fits") if row["series"] == "hk"]
    for place in card.positions:
        if place.reading.series.id != "hk":
            continue
        run_ = [r for r in here if r["position"] == place.position]
        mine = [r for r in run_ if r["first_place"] <= 600 and (r["last_place"] or 9999) >= 600]
        assert {r["state"] for r in mine} == {str(place.state)}
        assert {r["assembly"] for r in mine} - {None} == {fit.assembly.id for fit in place.segment.fits}


def test_runs_of_a_position_follow_one_another() -> None:
    found = [
        r for r in rows("answer_fits") if (r["series"], r["position"]) == ("hk", "lubrication/oil-filter")
    ]
    runs = sorted({(r["first_place"], r["last_place"]) for r in found})
    assert all(last is not None and last < first for (_, last), (first, _) in pairwise(runs))


def test_statements_have_addresses_that_are_promised_and_standings() -> None:
    found = rows("answer_statements")
    promised = set(permanent.public(demo()))
    assert {row["address"] for row in found} <= promised
    assert {row["standing"] for row in found} <= {str(one) for one in Standing}
    for row in found:
        assert (row["standing"] == "disputed") == (row["against"] > 0)
        assert (row["standing"] == "unsupported") == (row["for"] == row["against"] == 0)


def test_breaks_lie_where_they_may() -> None:
    found = rows("answer_breaks")
    assert len(found) == len(demo().answers.breaks) > 10
    for row in found:
        if row["likely_first"] is not None:
            assert row["likely_first"] <= row["likely_last"]


def test_every_part_number_is_there_once() -> None:
    found = rows("answer_parts")
    assert len({row["address"] for row in found}) == len(found) == len(demo().parts)
    whole = {row["number"]: row["whole"] for row in found}
    assert "assemblies/edge-strainer/" in whole["WH-1180"]
    assert "conversions/cartridge-kit/" in whole["WH-2290"]


@pytest.mark.slow
def test_a_release_is_called_alike_as_long_as_nothing_changes() -> None:
    every = tables(demo().answers)
    assert release_of(every) == release_of(tables(demo().answers))
    assert release_of(every) != release_of(every[:-1])


def test_a_licence_is_an_identifier_of_spdx() -> None:
    assert all(licence_of(one.lower()) for one in OFTEN)
    known = licence_of("cc-by-4.0")
    assert known
    assert (known.id, known.address) == ("CC-BY-4.0", "https://creativecommons.org/licenses/by/4.0/")
    other = licence_of("MIT-0")
    assert other
    assert other.address == "https://spdx.org/licenses/MIT-0.html"
    assert licence_of("do what you like") is None
    assert licence_of("x/../y") is None


@pytest.mark.slow
def test_the_page_has_every_file_with_its_hash(demo_site: Path) -> None:
    page = (demo_site / "data/index.html").read_text()
    files = [file for file in (demo_site / "data").rglob("*") if file.is_file() and file.suffix != ".html"]
    assert len(files) > 70
    for file in files:
        assert f'href="{file.relative_to(demo_site / "data").as_posix()}"' in page
        assert sha256(file.read_bytes()).hexdigest() in page
    assert "Creative Commons Zero 1.0 Universal" in page


@pytest.mark.slow
def test_a_site_and_an_export_have_the_same_files(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("[spanbook]", "[{spanbook: {licence: cc-by-4.0}}]"))
    assert run("build", folder).exit_code == 0
    out = tmp_path / "out"
    assert run("export", out, "--folder", folder).exit_code == 0
    site = folder / "site/data"
    made = {file.relative_to(out).as_posix(): file.read_bytes() for file in out.rglob("*") if file.is_file()}
    assert made == {name: (site / name).read_bytes() for name in made}
    assert json.loads(made["datapackage.json"])["licenses"][0]["name"] == "CC-BY-4.0"


@pytest.mark.slow
def test_a_site_may_leave_the_files_out_and_then_says_so(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(
        CONFIG.replace("[spanbook]", "[{spanbook: {exports: {tables: false}}}]")
    )
    assert run("build", folder).exit_code == 0
    assert [file.name for file in (folder / "site/data").iterdir()] == ["index.html"]
    page = (folder / "site/data/index.html").read_text()
    assert "spanbook export" in page
    assert "Nobody has said yet under which licence" in page


def test_what_is_no_licence_is_told(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(
        IN_OUR_FRAME.replace("[spanbook]", "[{spanbook: {licence: free for all}}]")
    )
    found = run("build", folder)
    assert "licence: read free for all; it is an SPDX identifier" in found.output
    assert not (folder / "site").exists()
