"""A whole round: a form filled, its record committed, judged, compared, built, and found in the answers."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from spanbook.cli import main
from tests.pages.test_forms import fill_a_teardown, made
from tests.support.repository import git

PROJECT = Path(__file__).parents[2]


@pytest.fixture
def community(tmp_path: Path) -> Path:
    """The demonstration as a repository of its own, with a branch for a proposal."""
    folder = tmp_path / "community"
    shutil.copytree(PROJECT / "content", folder / "content")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "The records")
    git(folder, "switch", "-q", "-c", "proposal")
    return folder


def test_from_a_form_to_a_changed_answer(community: Path, served: str, chromium: Browser) -> None:
    page = chromium.new_context(accept_downloads=True).new_page()
    page.goto(f"{served}card/?serial=HK+600")
    page.wait_for_selector("[data-done]")
    asked = "which of these two is your oil filter"
    before = page.locator(".sb-open").text_content() or ""
    assert "Owners of HK 593 to HK 606: " + asked in before

    page.get_by_role("link", name="Tell what you found on this machine").click()
    page.wait_for_load_state("networkidle")
    fill_a_teardown(page)
    made(page)
    with page.expect_download() as waiting:
        page.get_by_role("link", name="Download").click()
    name = waiting.value.suggested_filename
    waiting.value.save_as(community / "content/teardowns" / name)
    git(community, "add", "-A")
    git(community, "commit", "-q", "-m", "HK 600")

    result = CliRunner().invoke(main, ["review", "main", "proposal", "--folder", str(community)])
    assert result.exit_code == 0, result.output
    assert "teardown hk-600-tolland: added" in result.output
    assert "teardowns/hk-600-tolland/" in result.output

    site = community / "site"
    assert CliRunner().invoke(main, ["build", str(community)]).exit_code == 0
    page.goto((site / "card/index.html").as_uri() + "?serial=HK+603")
    page.wait_for_selector("[data-done]")
    after = page.locator(".sb-open").text_content() or ""
    assert asked in after
    assert "Owners of HK 593 to HK 606" not in after  # one more look has narrowed the break
    page.goto((site / "card/index.html").as_uri() + "?serial=HK+600")
    page.wait_for_selector("[data-done]")
    assert "Seen on this machine" in page.locator("[data-out]").inner_text()
    assert asked not in (page.locator(".sb-open").text_content() or "")  # its owner has answered
    page.goto((site / "index.html").as_uri())
    page.locator("form[data-finder] input").fill("HK 600 tolland")
    page.wait_for_selector("[role=option]")
    assert "hk-600-tolland" in " ".join(
        link.get_attribute("href") or "" for link in page.locator("a[role=option]").all()
    )
    page.context.close()
