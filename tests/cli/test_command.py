"""The command and the plugin: what is told, what it ends with, and that a failure loses nothing."""

from __future__ import annotations

import json
import re
import shutil
from pathlib import Path

import pytest

from tests.support import worlds
from tests.support.command import BAD, CONFIG, LID, built, project, run

pytestmark = pytest.mark.slow  # whole sites are built


def test_check_tells_where_what_and_what_to_do(tmp_path: Path) -> None:
    worlds.lay(tmp_path, BAD)
    result = run("check", tmp_path)
    assert result.exit_code == 1
    line, count = result.output.splitlines()[0], result.output.splitlines()[-1]
    assert re.fullmatch(
        r"content/assemblies/lid\.yml:6:23: error [a-z-]+: read “one”; write it like .*", line
    ), line
    assert count == "5 records: 1 error."


def test_check_ends_well_on_advice_and_strictly_on_warnings(tmp_path: Path) -> None:
    worlds.lay(tmp_path, LID)
    assert run("check", tmp_path, "--strict").exit_code == 0
    letter = "# file: content/sources/letter.yml\nkind: source\nid: letter\ntitle: A\nclass: manual\n"
    worlds.lay(tmp_path / "b", letter)
    assert run("check", tmp_path / "b").exit_code == 0
    assert run("check", tmp_path / "b", "--strict").exit_code == 1


def test_check_as_json(tmp_path: Path) -> None:
    worlds.lay(tmp_path, BAD)
    told = json.loads(run("check", tmp_path, "--format", "json").output)
    assert told["records"] == 5
    (problem,) = told["problems"]
    assert (problem["path"], problem["line"], problem["column"]) == ("content/assemblies/lid.yml", 6, 23)
    assert (problem["severity"], problem["read"]) == ("error", "read “one”")


def test_explain() -> None:
    assert "One record a file" in run("check", "--explain", "yaml-second-document").output
    listed = run("check", "--explain", "all").output
    assert "span-reversed (error)" in listed
    wrong = run("check", "--explain", "nothing")
    assert wrong.exit_code == 1
    assert "--explain all" in wrong.output


def test_a_folder_that_is_not_there() -> None:
    result = run("check", "nowhere-at-all")
    assert result.exit_code == 1
    assert "there is no such folder" in result.output


def test_build_ends_with_what_was_built(tmp_path: Path) -> None:
    result = run("build", project(tmp_path))
    assert result.exit_code == 0, result.output
    assert re.search(
        r"Built \d+ pages in \d+\.\d s: .*/site\n[\d,]+ files in [\d,]+ folders, ", result.output
    )
    assert (tmp_path / "site/assemblies/lid/index.html").is_file()
    assert not list((tmp_path / "site").rglob("*.yml"))
    assert [p.name for p in tmp_path.iterdir() if p.name.startswith(".")] == []


@pytest.fixture(scope="module")
def once_built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return built(tmp_path_factory.mktemp("built") / "project")


@pytest.mark.parametrize(
    "spoil",
    [
        lambda folder: worlds.lay(folder, BAD),
        lambda folder: (folder / "mkdocs.yml").write_text(CONFIG + "nonsense: [\n"),
        lambda folder: (folder / "mkdocs.yml").unlink(),
        lambda folder: (folder / "content/index.md").write_bytes(b"\xff\xfe"),
    ],
    ids=["record", "settings", "no-settings", "guide"],
)
def test_a_failed_build_leaves_the_previous_site_whole(
    once_built: Path, tmp_path: Path, spoil: object
) -> None:
    folder = shutil.copytree(once_built, tmp_path / "project")
    before = {p.relative_to(folder): p.read_bytes() for p in (folder / "site").rglob("*.html")}
    assert before
    assert callable(spoil)
    spoil(folder)
    result = run("build", folder)
    assert result.exit_code == 1
    assert "the previous site is as it was" in result.output
    after = {p.relative_to(folder): p.read_bytes() for p in (folder / "site").rglob("*.html")}
    assert after == before
    assert [p.name for p in folder.iterdir() if p.name.startswith(".")] == []


def test_strict_build_follows_links_from_guides_into_records(tmp_path: Path) -> None:
    folder = project(tmp_path)
    assert run("build", folder, "--strict").exit_code == 0
    (folder / "content/index.md").write_text("# Home\n\n[x](assemblies/lid.md#nowhere)\n")
    result = run("build", folder, "--strict")
    assert result.exit_code == 1
    assert "#nowhere" in result.output


def test_record_pages_are_in_the_sitemap_and_not_in_the_nav(demo_site: Path) -> None:
    assert "assemblies/edge-strainer/" in (demo_site / "sitemap.xml").read_text()
    home = (demo_site / "index.html").read_text()
    nav = home[home.index('<nav class="md-nav md-nav--primary"') : home.index("<article")]
    assert "edge-strainer" not in nav
    assert "assemblies/" in nav


def test_the_edit_link_points_at_the_record(demo_site: Path) -> None:
    html = (demo_site / "assemblies/edge-strainer/index.html").read_text()
    edit = "https://forge.example/wexmoor/records/_edit/main/content/assemblies/lubrication/edge-strainer.yml"
    assert f'<a href="{edit}">the file of its record</a>' in html
    cautions = (demo_site / "cautions/index.html").read_text()
    assert 'content/cautions.yml">the file of its record</a>' in cautions


def test_the_title_hole_of_the_theme_is_closed(tmp_path: Path) -> None:
    folder = project(tmp_path)
    lid = folder / "content/assemblies/lid.yml"
    lid.write_text(lid.read_text().replace("title: Lid", "title: </title><script>alert(1)</script>"))
    assert run("build", folder).exit_code == 0
    html = (folder / "site/assemblies/lid/index.html").read_text()
    assert "<script>alert" not in html
    assert "<title>&lt;/title&gt;&lt;script&gt;alert(1)&lt;/script&gt; · X</title>" in html


def test_record_pages_differ_from_plain_ones_only_inside(demo_site: Path) -> None:
    """The captured shell has the same header, menus and foot as a page that the theme rendered itself."""
    record = (demo_site / "glossary/index.html").read_text()
    guide = (demo_site / "how-to-read-a-page/index.html").read_text()
    for part in (
        r"<header.*?</header>",
        r'<footer class="sb-colophon">.*?</footer>',
        r'<script id="__config".*?>',
    ):
        found = [re.search(part, html, re.DOTALL) for html in (record, guide)]
        texts = [re.sub(r"\s+|Glossary|How to read a page", "", match.group()) for match in found if match]
        assert len(texts) == 2
        assert texts[0] == texts[1]


def test_help_page_that_does_not_exist_is_told(tmp_path: Path) -> None:
    folder = project(tmp_path)
    (folder / "mkdocs.yml").write_text(CONFIG.replace("[spanbook]", "[{spanbook: {help_page: no.md}}]"))
    result = run("build", folder)
    assert result.exit_code == 1
    assert "no.md" in result.output
