"""Addresses that were public once go on working."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from spanbook.answers.applicability import Fits
from spanbook.cli import main
from spanbook.rules.checking import check_folder
from spanbook.site import permanent, views
from spanbook.site.common import Site
from tests.support import worlds
from tests.support.command import LID, project, run

MOVED = LID.replace("lid.yml", "cover-plate.yml").replace("id: lid", "id: cover-plate\nformerly: [lid]")


def lid_moved(folder: Path) -> Path:
    (folder / "content/assemblies/lid.yml").unlink()
    worlds.lay(folder, MOVED)
    (folder / "content/index.md").write_text("# Home\n")
    return folder


def test_the_list_has_pages_statements_and_words(demo_site: Path) -> None:
    listed = (demo_site / "addresses.txt").read_text().splitlines()
    assert listed == sorted(set(listed))
    assert {
        "assemblies/edge-strainer/",
        "assemblies/cartridge-filter/#span-hk-field",
        "parts/solent-carburation/0012/",
        "cautions/#used-oil",
        "series/hk/",
    } <= set(listed)


def test_every_page_made_is_listed_and_no_other() -> None:
    register = check_folder(Path(__file__).parents[2]).register
    made = {page.address for page in views.all_pages(Site(Fits(register)))}
    assert {line for line in permanent.public(register) if "#" not in line} == made


def test_every_listed_address_is_there(demo_site: Path) -> None:
    for line in (demo_site / "addresses.txt").read_text().splitlines():
        path, _, anchor = line.partition("#")
        html = (demo_site / path / "index.html").read_text()
        assert not anchor or f' id="{anchor}"' in html, line


def test_a_former_address_leads_on_with_its_fragment_and_query(tmp_path: Path, chromium: Browser) -> None:
    folder = lid_moved(project(tmp_path))
    assert run("build", folder).exit_code == 0
    page = chromium.new_page()
    page.goto((folder / "site/assemblies/lid/index.html").as_uri() + "?a=1#span-xa")
    page.wait_for_url("**/assemblies/cover-plate/**")
    assert page.url.endswith("/assemblies/cover-plate/index.html?a=1#span-xa")
    page.close()
    html = (folder / "site/assemblies/lid/index.html").read_text()
    assert 'href="../../assemblies/cover-plate/"' in html


@pytest.mark.parametrize(("move", "dies"), [(lid_moved, False), (lambda f: worlds.lay(f) and f, False)])
def test_check_passes_when_nothing_dies(tmp_path: Path, move: object, dies: bool) -> None:
    folder = project(tmp_path)
    assert run("build", folder).exit_code == 0
    older = tmp_path / "older.txt"
    older.write_bytes((folder / "site/addresses.txt").read_bytes())
    assert callable(move)
    move(folder)
    assert (run("check", folder, "--addresses", older).exit_code == 1) is dies


def test_check_fails_where_an_address_would_die(tmp_path: Path) -> None:
    folder = project(tmp_path)
    assert run("build", folder).exit_code == 0
    older = tmp_path / "older.txt"
    older.write_bytes((folder / "site/addresses.txt").read_bytes())
    lid = folder / "content/assemblies/lid.yml"
    lid.write_text(lid.read_text().replace("last: 20", "last: 20, anchor: span-late"))
    result = CliRunner().invoke(main, ["check", str(folder), "--addresses", str(older)])
    assert result.exit_code == 1
    assert "address-dead: the address assemblies/lid/#span-xa would die" in result.output


def test_a_pasted_link_shows_what_the_page_says(demo_site: Path) -> None:
    html = (demo_site / "assemblies/edge-strainer/index.html").read_text()
    head = html[: html.index("</head>")]
    assert '<meta property="og:title" content="Metal-edge strainer">' in head
    assert (
        '<meta property="og:description" content="Oil filter: Metal-edge strainer, from HK 1 to somewhere '
        "between HK 588 and HK 612 (at the works); from 0001M to somewhere between 0096M and 0110M (at the "
        'works).">' in head
    )
    assert '<meta property="og:url" content="https://wexmoor.example/assemblies/edge-strainer/">' in head
    assert '<meta name="twitter:card" content="summary">' in head
