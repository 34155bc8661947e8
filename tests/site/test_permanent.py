"""Addresses that were public once go on working."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from spanbook.site import permanent
from spanbook.site.page import SitePage
from tests.support.command import built, lid_moved, project, run
from tests.support.demo import demo

MOVED = re.compile('data-moved href="([^"]+)"')


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


def test_every_page_made_is_listed_and_no_other(demo_pages: list[SitePage]) -> None:
    """But for the pieces of long pages, which may move."""
    register = demo()
    made = {page.address for page in demo_pages if not page.piece_of}
    assert {line for line in permanent.public(register) if "#" not in line} == made


def test_every_listed_address_is_there(demo_site: Path) -> None:
    for line in (demo_site / "addresses.txt").read_text().splitlines():
        path, _, anchor = line.partition("#")
        html = (demo_site / path / "index.html").read_text()
        if led_on := MOVED.search(html):
            html = (demo_site / path / led_on[1] / "index.html").read_text()
            assert not MOVED.search(html), line
        assert not anchor or f' id="{anchor}"' in html, line


@pytest.fixture(scope="module")
def older(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The list of addresses of the small project's site."""
    return built(tmp_path_factory.mktemp("built")) / "site/addresses.txt"


@pytest.mark.slow
@pytest.mark.parametrize("move", [lid_moved, lambda folder: folder], ids=["moved", "as it was"])
def test_check_passes_when_nothing_dies(older: Path, tmp_path: Path, move: Callable[[Path], Path]) -> None:
    assert run("check", move(project(tmp_path)), "--addresses", older).exit_code == 0


@pytest.mark.slow
def test_check_fails_where_an_address_would_die(older: Path, tmp_path: Path) -> None:
    folder = project(tmp_path)
    lid = folder / "content/assemblies/lid.yml"
    lid.write_text(lid.read_text().replace("last: 20", "last: 20, anchor: span-late"))
    result = run("check", folder, "--addresses", older)
    assert result.exit_code == 1
    assert "address-dead: the address assemblies/lid/#span-xa would die" in result.output


@pytest.mark.parametrize(
    "page",
    [
        *("parts/castle-bearing/a203/", "assemblies/cone-clutch/strip-down/", "positions/drive/clutch/"),
        *("series/hk/", "assemblies/cone-clutch/", "parts/castle-bearing/", "card/"),
        *("machines/", "add/", "holding/", "open-questions/"),
    ],
)
def test_the_navigation_leads_to_the_same_lists_from_everywhere(page: str, demo_site: Path) -> None:
    html = (demo_site / page / "index.html").read_text()
    shown = {"Assemblies": "assemblies", "Part numbers": "parts", "Positions": "positions"}
    shown["Add what you found"] = "add"
    for words, name in shown.items():
        link = rf'<a href="([./a-z-]*)" class="md-nav__link[^>]*>\s*<span[^>]*>\s*{words}\s*</span>'
        (found,) = set(re.findall(link, re.sub(r"\s+", " ", html)))
        assert (demo_site / page / found).resolve() == demo_site / name


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
    assert '<meta name="twitter:card" content="summary_large_image">' in head
