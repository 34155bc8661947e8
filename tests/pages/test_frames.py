"""The pages in other frames: the demonstration in our own, in a browser; in any other theme, plainly.

What every page of every kind must be is tried in Material for MkDocs (`test_browser.py`); here stands what a
frame itself may spoil.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest
from playwright.sync_api import Browser, expect

from tests.conftest import serving
from tests.pages.test_browser import KINDS, opened
from tests.support.frames import THEMES, community_in, demonstration_in
from tests.support.npm import npm

# A kind for each sort of thing in a page: heading, plate, tables, drawings, charts, forms, tables of scripts.
SOME = [
    "home",
    "guide",
    "assembly",
    "series",
    "position",
    "part",
    "teardown",
    "strip-down",
    "circuit",
    "glossary",
]
SOME += ["assemblies", "card", "what am I holding", "results", "questions", "filled form", "missing"]
EACH = pytest.mark.parametrize("kind", SOME)


@pytest.fixture(scope="module")
def own(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address of the demonstration in our own frame."""
    with serving(demonstration_in(THEMES["own"], tmp_path_factory.mktemp("own"))) as address:
        yield address


@EACH
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_axe_finds_nothing(chromium: Browser, own: str, kind: str, scheme: str) -> None:
    """axe-core (npm, MPL-2.0), all its default rules: WCAG 2 A and AA and its best practices."""
    page = opened(chromium, own + KINDS[kind], scheme=scheme)
    page.evaluate(npm("axe-core/axe.min.js").read_text(encoding="utf-8"))
    violations = page.evaluate("axe.run(document).then(result => result.violations)")
    told = [(v["id"], [node["html"][:120] for node in v["nodes"][:3]]) for v in violations]
    page.context.close()
    assert told == []


@EACH
def test_nothing_is_wider_than_a_small_telephone(chromium: Browser, own: str, kind: str) -> None:
    page = opened(chromium, own + KINDS[kind], width=320)
    width = page.evaluate("document.documentElement.scrollWidth")
    page.context.close()
    assert width <= 320


def test_nothing_comes_from_afar_and_nobody_complains(chromium: Browser, own: str) -> None:
    asked: list[str] = []
    complaints: list[str] = []
    page = chromium.new_page()
    page.on("request", lambda request: asked.append(request.url))
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    for kind in SOME:
        page.goto(own + KINDS[kind])
        page.wait_for_load_state("networkidle")
    page.close()
    assert [url for url in asked if not url.startswith((own, "data:"))] == []
    assert complaints == []


def test_the_index_leads_to_every_list_without_a_script(chromium: Browser, own: str) -> None:
    context = chromium.new_context(java_script_enabled=False, viewport={"width": 390, "height": 800})
    page = context.new_page()
    page.goto(own + KINDS["assembly"])
    page.get_by_text("The records", exact=True).first.click()
    page.get_by_role("link", name="Teardowns").click()
    expect(page.locator("h1")).to_have_text("Teardowns")
    page.get_by_text("Guides", exact=True).click()
    page.get_by_role("link", name="How to read a page").click()
    expect(page.locator("h1")).to_contain_text("How to read a page")
    expect(page.locator(".sb-index [aria-current=page]")).to_have_text("How to read a page")
    context.close()


def test_dark_and_light_are_as_the_device_has_it_until_the_reader_chooses(
    chromium: Browser, own: str
) -> None:
    context = chromium.new_context(color_scheme="dark")
    page = context.new_page()
    page.goto(own + KINDS["assembly"])
    ground = "getComputedStyle(document.body).backgroundColor"
    assert page.evaluate(ground) == "rgb(20, 27, 29)"
    page.get_by_role("button", name="Light").click()
    assert page.evaluate(ground) == "rgb(253, 251, 246)"
    expect(page.get_by_role("button", name="Dark")).to_be_focused()
    page.goto(own + KINDS["glossary"])
    assert page.evaluate(ground) == "rgb(253, 251, 246)"
    page.emulate_media(color_scheme="light")
    page.get_by_role("button", name="Dark").click()
    page.reload()
    assert page.evaluate(ground) == "rgb(20, 27, 29)"
    page.emulate_media(media="print")
    assert page.evaluate("getComputedStyle(document.querySelector('.sb-page')).color") == "rgb(29, 36, 38)"
    context.close()


def test_the_answer_stands_in_the_first_screen_of_a_telephone(chromium: Browser, own: str) -> None:
    page = opened(chromium, own + KINDS["card"], width=390)
    first = page.locator(".sb-place").first
    expect(first).to_be_visible()
    box, heading = first.bounding_box(), page.locator("[data-card] h2").first.bounding_box()
    index = page.locator(".sb-index").bounding_box()
    page.context.close()
    assert box
    assert heading
    assert index
    assert box["y"] < 400
    assert heading["y"] >= index["y"] + index["height"]


def test_on_paper_there_is_no_frame(chromium: Browser, own: str) -> None:
    page = opened(chromium, own + KINDS["assembly"])
    page.emulate_media(media="print")
    for part in (".sb-top", ".sb-finder-bar", ".sb-index", ".sb-skip"):
        expect(page.locator(part)).to_be_hidden()
    expect(page.locator("h1")).to_be_visible()
    page.context.close()


def test_in_colours_of_the_readers_own_every_tab_has_its_edge(chromium: Browser, own: str) -> None:
    context = chromium.new_context(forced_colors="active")
    page = context.new_page()
    page.goto(own)
    for part in (".sb-name", ".sb-index > a", ".sb-index summary"):
        style = page.locator(part).first.evaluate("e => getComputedStyle(e).borderTopStyle")
        assert style == "solid"
    context.close()


@pytest.mark.parametrize("theme", ["mkdocs", "readthedocs"])
def test_any_other_theme_shows_the_pages_plainly(chromium: Browser, theme: str, tmp_path: Path) -> None:
    with serving(community_in(THEMES[theme], tmp_path / "us")) as address:
        page = opened(chromium, f"{address}assemblies/ribbed-cover/", width=390)
        assert page.evaluate("document.documentElement.scrollWidth") <= 390
        page.locator("form[data-finder] input").fill("EO 172")
        page.locator("form[data-finder] input").press("Enter")
        expect(page.locator("[data-card] h2").first).to_contain_text("EO 172")
        expect(page.locator(".sb-place").first).to_be_visible()
        page.emulate_media(media="print")
        expect(page.locator(".sb-finder-bar")).to_be_hidden()
        page.context.close()
