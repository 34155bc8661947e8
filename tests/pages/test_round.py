"""A whole round: a report told, its packet received, judged, compared, built, and found in the answers."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner
from playwright.sync_api import Browser

from spanbook.cli import main
from tests.support.repository import git

PROJECT = Path(__file__).parents[2]


@pytest.fixture
def community(tmp_path: Path) -> Path:
    """The demonstration as a repository of its own."""
    folder = tmp_path / "community"
    shutil.copytree(PROJECT / "content", folder / "content")
    shutil.copy(PROJECT / "mkdocs.yml", folder)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "The records")
    return folder


def test_from_a_report_to_a_changed_answer(
    community: Path, served: str, chromium: Browser, tmp_path: Path
) -> None:
    page = chromium.new_context(accept_downloads=True).new_page()
    page.goto(f"{served}card/?serial=HK+600")
    page.wait_for_selector("[data-done]")
    asked = "which of these two is your oil filter"
    before = page.locator(".sb-open").text_content() or ""
    assert "Owners of HK 593 to HK 606: " + asked in before

    page.get_by_role("link", name="Tell what you found on this machine").click()
    page.wait_for_selector("#lubrication--oil-filter")
    page.locator("[data-condition] [value=untouched]").click()
    page.locator("#lubrication--oil-filter").get_by_role("button", name="Metal-edge strainer").click()
    page.locator("[data-date]").fill("2026-11-21")
    page.locator("[data-by]").fill("tolland")
    page.wait_for_selector("[data-ways][data-done]:not([hidden])")
    with page.expect_download() as waiting:
        page.locator("[data-save]").click()
    packet = tmp_path / waiting.value.suggested_filename
    waiting.value.save_as(packet)

    receive = ["receive", str(packet), "--branch", "--json", "--folder", str(community)]
    result = CliRunner().invoke(main, receive)
    assert result.exit_code == 0, result.output
    branch = json.loads(result.output)["branch"]
    result = CliRunner().invoke(main, ["review", "main", branch, "--folder", str(community)])
    assert result.exit_code == 0, result.output
    assert "teardown hk-600-tolland-2026-11-21: added" in result.output
    assert "teardowns/hk-600-tolland-2026-11-21/" in result.output
    git(community, "merge", "-q", "--ff-only", branch)

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
