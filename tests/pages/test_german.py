"""The demonstration in German, on a telephone: what its scripts answer is German as well."""

from __future__ import annotations

import re
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from spanbook.mkdocs.build import build
from tests.conftest import serving
from tests.support.command import PROJECT

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def german(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    """The address at which the demonstration is served in German."""
    folder = tmp_path_factory.mktemp("german")
    shutil.copytree(PROJECT / "content", folder / "content")
    settings = (PROJECT / "mkdocs.yml").read_text(encoding="utf-8")
    asked = settings.replace("  - spanbook:\n", "  - spanbook:\n      language: de\n", 1)
    (folder / "mkdocs.yml").write_text(asked, encoding="utf-8")
    build(folder, folder / "site", strict=True, say=lambda text: None)
    with serving(folder / "site") as address:
        yield address


def _fits(page: Page) -> bool:
    """Nothing makes the page wider than the telephone."""
    return bool(page.evaluate("document.documentElement.scrollWidth <= window.innerWidth"))


def test_the_finder_tells_in_german_what_it_found(telephone: Page, german: str) -> None:
    telephone.goto(f"{german}find/?q=WH-1181")
    expect(telephone.locator("html")).to_have_attribute("lang", "de")
    expect(telephone.locator("[data-find] [role=status]")).to_have_text(
        re.compile(r"^\d+ Treffer für WH-1181$")
    )
    asks = telephone.locator("[data-finder] input")
    expect(asks).to_have_attribute("placeholder", "Serien-, Teilenummer oder Wörter")
    assert _fits(telephone)


def test_a_card_is_german(telephone: Page, german: str) -> None:
    telephone.goto(f"{german}card/?serial=HK+588")
    expect(telephone.locator("[data-card][data-done]")).to_be_attached()
    states = telephone.locator(".sb-place .sb-state")
    expect(states.filter(has_text="umstritten").first).to_be_visible()
    assert not {"disputed", "settled", "unsure"} & set(states.all_inner_texts())
    expect(telephone.locator("[data-found] summary")).to_have_text("Etwas anderes daran gefunden")
    assert _fits(telephone)


def test_a_form_says_in_german_what_it_knows_and_what_it_lacks(telephone: Page, german: str) -> None:
    telephone.goto(f"{german}add/teardown/")
    form = telephone.locator("form[data-begun]")
    serial = form.locator(":scope > [data-key=serial]")
    serial.locator("input").fill("HK 9999")
    expect(serial.locator(".sb-known")).to_contain_text("Sie wurde nie vergeben.")
    expect(form.locator(":scope > [data-key=condition] option")).to_contain_text(
        ["auswählen", "unberührt", "wahrscheinlich ursprünglich", "verändert", "nicht bekannt"]
    )
    telephone.get_by_role("button", name="Eintrag schreiben").click()
    expect(telephone.locator("[data-told]")).to_have_text(
        re.compile("^Etwas fehlt oder ist nicht, wie es sein soll: Datum: ")
    )
    assert _fits(telephone)


def test_a_size_may_have_the_comma_that_the_page_tells_it_with(telephone: Page, german: str) -> None:
    telephone.goto(f"{german}find/?q=8+x+1%2C25")
    expect(telephone.locator("[data-find] [role=status]")).to_have_text(re.compile("^M8"))
