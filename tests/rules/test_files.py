"""What may lie in a content folder, and what of it reaches readers."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.answers.answers import Answers
from spanbook.reading.files import Sort, sort_of
from spanbook.rules.checking import check_folder
from spanbook.site import views
from spanbook.site.common import Site
from tests.support import worlds
from tests.support.command import PROJECT, project, run
from tests.support.repository import git


@pytest.mark.parametrize(
    ("path", "sort"),
    [
        ("index.md", Sort.GUIDE),
        ("guides/plates.md", Sort.GUIDE),
        ("guides/README.md", Sort.GUIDE),
        ("guides/plate.jpg", Sort.PICTURE),
        ("plate.webp", Sort.PICTURE),
        ("photographs/a.jpg", Sort.PHOTOGRAPH),
        ("photographs/a.html", Sort.PHOTOGRAPH),
        ("sources/a.yml", Sort.RECORD),
        ("anywhere/a.YAML", Sort.RECORD),
        (".gitkeep", Sort.HIDDEN),
        ("photographs/.DS_Store", Sort.HIDDEN),
        (".obsidian/a.js", Sort.HIDDEN),
        ("guides/.well-known/a.html", Sort.HIDDEN),
        ("photographs/desktop.ini", Sort.LEFTOVER),
        ("#a.md#", Sort.LEFTOVER),
        ("a.md~", Sort.LEFTOVER),
        ("a.MD", Sort.STRAY),
        ("a.JPG", Sort.STRAY),
        ("sources/a.jpg", Sort.STRAY),
        ("photographs.md", Sort.STRAY),
        ("a.pdf", Sort.STRAY),
    ],
)
def test_a_file_is_told_by_its_path(path: str, sort: Sort) -> None:
    assert sort_of(path) is sort


def test_no_guide_can_take_a_page_away() -> None:
    pages = views.all_pages(Site(Answers(check_folder(PROJECT).register)))
    for folder in {page.address.split("/")[0] for page in pages}:
        assert sort_of(f"{folder}.md") is sort_of(f"{folder}/a/b.md") is Sort.STRAY, folder


def test_what_is_left_behind_or_hidden_stops_nothing_and_is_not_published(tmp_path: Path) -> None:
    folder = project(tmp_path)
    left = (".gitkeep", "a.html~", "photographs/Thumbs.db", ".hidden/a.html", "sources/book.yml.orig")
    for path in left:
        (folder / "content" / path).parent.mkdir(exist_ok=True)
        (folder / "content" / path).write_text("<script>alert(1)</script>")
    told = {p.place.path for p in check_folder(folder).problems if p.name == "file-left-behind"}
    assert told == {f"content/{path}" for path in left if sort_of(path) is Sort.LEFTOVER}
    assert run("check", folder, "--strict").exit_code == 0
    assert run("build", folder, "--strict").exit_code == 0
    assert not [f for f in (folder / "site").rglob("*") if f.name in {Path(path).name for path in left}]


def test_what_is_not_taken_is_never_published_even_where_nobody_checked(tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "content/news.html").write_text("<script>alert(1)</script>")
    result = run("build", folder)
    assert result.exit_code == 1
    assert "content/news.html:1:1: error file-not-taken" in result.output
    assert not (folder / "site").exists()


def test_guides_that_differ_in_capitals_alone_are_told_alike_by_git(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    (folder / "content/news.md").write_text("# News\n")
    (folder / "content/News.md").write_text("# News\n")
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "Guides")
    for result in (run("check", folder), run("check", folder, "--at", "main")):
        assert result.exit_code == 1
        assert "error file-clash: news.md differs from News.md only in capitals" in result.output
