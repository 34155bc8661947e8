"""The front page and the foot of every page, as MkDocs makes them."""

from __future__ import annotations

import os
from datetime import date
from pathlib import Path

import pytest

from spanbook.reading.git import last_changed
from tests.support.command import CONFIG, project, run
from tests.support.repository import git


@pytest.fixture
def committed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    folder = project(tmp_path)
    monkeypatch.setitem(os.environ, "GIT_COMMITTER_DATE", "2026-05-05T12:00:00+00:00")
    git(folder, "init", "-q")
    git(folder, "add", "content")
    git(folder, "commit", "-q", "-m", "The first records")
    return folder


@pytest.mark.slow
def test_the_foot_tells_the_day_of_the_records_the_licence_and_whom_to_write_to(committed: Path) -> None:
    settings = CONFIG.replace("[spanbook]", "[{spanbook: {contact: 'mailto:us@example.org'}}]")
    (committed / "mkdocs.yml").write_text(f"{settings}\ncopyright: Ours, to be shared.\n")
    assert run("build", committed).exit_code == 0
    for page in ("index.html", "assemblies/lid/index.html"):
        foot = (committed / "site" / page).read_text().partition('<footer class="sb-colophon">')[2]
        assert "<p data-as-of>The records as they stood on 5 May 2026.</p>" in foot
        assert "<p>Ours, to be shared.</p>" in foot
        assert '<a href="mailto:us@example.org">' in foot


def test_a_folder_outside_a_repository_has_no_day(tmp_path: Path) -> None:
    assert last_changed(tmp_path) is None


def test_the_day_is_that_of_the_folder_and_not_of_what_lies_beside_it(
    committed: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setitem(os.environ, "GIT_COMMITTER_DATE", "2026-08-08T12:00:00+00:00")
    git(committed, "add", "mkdocs.yml")
    git(committed, "commit", "-q", "-m", "Settings")
    assert last_changed(committed / "content") == date(2026, 5, 5)
    assert last_changed(committed) == date(2026, 8, 8)


@pytest.mark.slow
def test_what_the_records_tell_stands_after_the_first_words_of_the_home_page(tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "content/index.md").write_text("# Home\n\nWhat this is.\n\nWhat else there is.\n")
    assert run("build", folder).exit_code == 0
    home = (folder / "site/index.html").read_text()
    assert home.index("What this is.") < home.index('class="sb-front"') < home.index("What else there is.")
    (folder / "content/index.md").write_text("# Home\n\n- One\n\n- Two\n")
    assert run("build", folder).exit_code == 0
    home = (folder / "site/index.html").read_text()
    assert home.index("</h1>") < home.index('class="sb-front"') < home.index("One")  # inside of nothing
    guides = [p for p in (folder / "site").rglob("index.html") if 'class="sb-front"' in p.read_text()]
    assert guides == [folder / "site/index.html"]
