"""An address that was public once, opened in a browser."""

from __future__ import annotations

from pathlib import Path

from playwright.sync_api import Browser

from tests.support.command import lid_moved, project, run


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
