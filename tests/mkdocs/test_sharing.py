"""What a shared link shows: each page's own picture, at an address that holds, or none."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest
from mkdocs.exceptions import PluginError

from spanbook.mkdocs.sharing import PicturesConfig
from spanbook.press.pictures import tags
from spanbook.site.common import Site
from spanbook.site.page import SitePage
from spanbook.site.pictures import address_of, plate_of
from tests.support.demo import shown

LINKED = {
    "assemblies/edge-strainer/",
    "series/hk/",
    "positions/lubrication/oil-filter/",
    "parts/wexmoor-engine-works/wh-1181/",
    "glossary/",
}


@pytest.fixture(scope="module")
def site() -> Site:
    return shown()


@pytest.fixture(scope="module")
def pages(demo_pages: list[SitePage]) -> dict[str, SitePage]:
    return {page.address: page for page in demo_pages if page.address in LINKED}


def settings(**typed: object) -> PicturesConfig:
    config = PicturesConfig()
    config.load_dict(typed)
    assert not any(config.validate()), typed
    return config


def pictures(site: Site, pages: Iterable[SitePage], name: str, settings: PicturesConfig) -> dict[str, bytes]:
    asked = settings.pictured(name)
    every = {address_of(page): asked.of(site, page) for page in pages}
    return {address: data for address, data in every.items() if data is not None}


def test_pages_that_forums_link_most_have_a_picture(site: Site, pages: dict[str, SitePage]) -> None:
    made = pictures(site, pages.values(), "Wexmoor", settings())
    assert sorted(made) == [
        "assets/pictures/assemblies/edge-strainer.png",
        "assets/pictures/parts/wexmoor-engine-works/wh-1181.png",
        "assets/pictures/positions/lubrication/oil-filter.png",
        "assets/pictures/series/hk.png",
    ]
    assert {data[:8] for data in made.values()} == {b"\x89PNG\r\n\x1a\n"}


def test_they_can_be_left_out(site: Site, pages: dict[str, SitePage]) -> None:
    assert pictures(site, pages.values(), "Wexmoor", settings(pages="none")) == {}
    few = pictures(site, pages.values(), "Wexmoor", settings(pages="without-parts"))
    assert len(few) == 3
    assert not any("/parts/" in address for address in few)


def test_a_page_names_its_picture_by_its_address_on_the_web(pages: dict[str, SitePage]) -> None:
    page = pages["assemblies/edge-strainer/"]
    said = tags(page, "https://wexmoor.example/book/", pictured=True)
    assert (
        'property="og:image" content="https://wexmoor.example/book/assets/pictures/assemblies/edge-strainer.png"'
        in said
    )
    assert 'content="summary_large_image"' in said
    for plain in (
        tags(page, None, pictured=True),
        tags(page, "https://wexmoor.example/", pictured=False),
    ):
        assert plain == '<meta name="twitter:card" content="summary">'


def test_a_strip_shows_where_an_assembly_was(site: Site, pages: dict[str, SitePage]) -> None:
    plate = plate_of(site, pages["assemblies/edge-strainer/"], "Wexmoor")
    assert (plate.title, plate.sort) == ("Metal-edge strainer", "Assembly")
    assert (plate.strips[0].first, plate.strips[0].last) == ("HK 1", "HK 2140")
    assert plate.strips[0].bars
    assert plate_of(site, pages["positions/lubrication/oil-filter/"], "Wexmoor").strips


def test_what_is_no_font_is_told(site: Site, pages: dict[str, SitePage], tmp_path: Path) -> None:
    (tmp_path / "letters.ttf").write_text("no font")
    with pytest.raises(PluginError, match="is no font"):
        pictures(site, pages.values(), "Wexmoor", settings(font=str(tmp_path / "letters.ttf")))
