"""A proposal compared and reviewed by the command, between folders and between real git revisions."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest
from click.testing import CliRunner
from jsonschema_rs import Draft202012Validator
from PIL import Image

from spanbook.cli import main
from spanbook.reading.schemas import folder
from tests.support.changed import copied, drop_a_teardown, narrow, split
from tests.support.command import project
from tests.support.repository import git

pytestmark = pytest.mark.slow


@pytest.fixture
def repository(tmp_path: Path) -> Path:
    copy = Path(copied(tmp_path, "repository"))
    git(copy, "init", "-q", "-b", "main")
    git(copy, "add", "-A")
    git(copy, "commit", "-q", "-m", "The records")
    git(copy, "switch", "-q", "-c", "proposal")
    return copy


def run(folder: Path, *arguments: str) -> str:
    result = CliRunner().invoke(main, ["compare", *arguments, "--folder", str(folder)])
    assert result.exit_code == 0, result.output
    return result.output


def test_revisions_are_compared(repository: Path) -> None:
    narrow(repository / "content")
    (repository / "mkdocs.yml").write_text("site_name: Changed\nplugins: [spanbook]\ndocs_dir: content\n")
    (repository / ".gitattributes").write_text("content/assemblies/** export-ignore\n* -diff\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "A narrower bound")
    text = run(repository, "main", "proposal")
    assert "HK 601 to HK 612" in text
    assert re.search(r"as a program \(1\)\n  \.gitattributes\nSettings .*\n  mkdocs\.yml", text)
    made = json.loads(run(repository, "main", "proposal", "--format", "json"))
    assert made["besides"] == [".gitattributes", "mkdocs.yml"]
    assert run(repository, "main", "main").strip() == "Nothing changes for readers."
    assert "\nRecords (1)\n" in run(repository, "main", str(repository))


@pytest.mark.parametrize("revision", ["no-such", "--output=x", "main:content", ""])
def test_a_revision_that_is_none_is_refused(repository: Path, revision: str) -> None:
    result = CliRunner().invoke(main, ["compare", "--folder", str(repository), "--", revision, "main"])
    assert result.exit_code == 1
    assert "give a folder, or a revision" in result.output
    assert not (repository / "x").exists()


def test_a_link_in_a_revision_is_refused_and_never_followed(repository: Path) -> None:
    secret = repository / "content/sources/secret.yml"
    secret.symlink_to("/etc/passwd")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "A link")
    result = CliRunner().invoke(main, ["compare", "--folder", str(repository), "main", "proposal"])
    assert result.exit_code == 1
    assert "file-link" in result.output
    assert "root:" not in result.output


def test_json_keeps_to_its_schema(tmp_path: Path) -> None:
    def change(content: Path) -> None:
        for each in (narrow, split, drop_a_teardown):
            each(content)
        file = content / "machines/wexmoor-h.yml"
        file.write_text(file.read_text().replace("1932: 118", "1932: 120"))

    old, new = copied(tmp_path, "old"), copied(tmp_path, "new", change)
    made = json.loads(run(tmp_path, old, new, "--format", "json"))
    schema = Draft202012Validator(json.loads((folder() / "answer-compare.json").read_text()))
    assert list(schema.iter_errors(made)) == []
    for key in ("records", "answers", "years", "orders", "standings", "headline", "unbacked", "breaks"):
        assert made[key], key
    assert {line["about"] for line in made["headline"]} >= {"unbacked", "gone"}
    assert {one["record"] for one in made["unbacked"]} == {"edge-strainer", "pack-2240-split", "wexmoor-h"}


def test_a_proposal_is_reviewed_in_one_go(repository: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    page, report = repository / "summary.md", repository / "report.md"
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(page))
    narrow(repository / "content")
    git(repository, "commit", "-q", "-a", "-m", "A narrower bound")
    options = ["--folder", str(repository), "--format", "github", "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "main", "proposal", *options])
    assert result.exit_code == 0, result.output
    assert "HK 601 to HK 612" in result.output
    assert "Everything could be read" in report.read_text()
    assert r"HK 601 to HK 612\:" in report.read_text() == page.read_text()


@pytest.mark.parametrize(
    ("path", "sort"),
    [
        ("mkdocs.yml", "Settings and programs"),
        ("program/source.txt", "Settings and programs"),
        ("overrides/main.html", "Settings and programs"),
        (".github/workflows/records.yml", "Workflows, hooks"),
        (".gitlab-ci.yml", "Workflows, hooks"),
        (".gitattributes", "Workflows, hooks"),
        ("content/guide.md", "Guides"),
        ("content/plate.png", "Guides"),
        ("content/.gitkeep", "Guides"),
    ],
)
def test_what_is_no_record_ends_a_review_with_a_code_of_its_own(
    repository: Path, path: str, sort: str
) -> None:
    file = repository / path
    file.parent.mkdir(parents=True, exist_ok=True)
    if file.name == "plate.png":
        Image.new("RGB", (4, 3)).save(file)
    else:
        file.write_text(file.read_text() + "# more\n" if file.exists() else "x")
    git(repository, "add", "-A", "-f")
    git(repository, "commit", "-q", "-m", "More than records")
    git(repository, "switch", "-q", "main")
    result = CliRunner().invoke(main, ["review", "main", "proposal", "--folder", str(repository)])
    assert result.exit_code == 3, result.output
    assert "Look before you take it in: it touches a file that is no record," in result.output
    assert re.search(rf"\n{sort}.*\(1\)\n  {re.escape(path)}\n", result.output)


def test_a_review_tells_what_is_touched_outside_the_project_and_in_other_repositories(
    tmp_path: Path,
) -> None:
    project(tmp_path / "records")
    git(tmp_path, "init", "-q", "-b", "main")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-q", "-m", "Records in a folder of a repository")
    # A user's own settings do not decide what is told.
    git(tmp_path, "config", "diff.relative", "true")
    git(tmp_path, "config", "diff.ignoreSubmodules", "all")
    head = subprocess.run(
        ["git", "-C", tmp_path, "rev-parse", "HEAD"], capture_output=True, check=True
    ).stdout
    for name in (".github/workflows/deploy.yml", "Makefile"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("x")
    git(tmp_path, "add", "-A")
    git(tmp_path, "update-index", "--add", "--cacheinfo", f"160000,{head.decode().strip()},records/theirs")
    git(tmp_path, "commit", "-q", "-m", "More than records")
    result = CliRunner().invoke(main, ["review", "HEAD~1", "HEAD", "--folder", str(tmp_path / "records")])
    assert result.exit_code == 3, result.output
    assert re.search(r"\nWorkflows, hooks.*\(1\)\n  \.\./\.github/workflows/deploy\.yml\n", result.output)
    assert re.search(r"\nSettings and programs.*\(2\)\n  \.\./Makefile\n  theirs\n", result.output)


def test_a_folder_called_like_a_revision_is_not_taken_for_it(
    repository: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    narrow(repository / "content")
    git(repository, "commit", "-q", "-a", "-m", "A narrower bound")
    monkeypatch.chdir(repository)
    shutil.copytree(repository / "content", repository / "main/content")
    result = CliRunner().invoke(main, ["review", "main", "proposal"])
    assert "HK 601 to HK 612" in result.output


def test_what_a_broken_proposal_touches_besides_is_told(repository: Path) -> None:
    (repository / "content/sources/bad.yml").write_text("kind: sauce\n")
    (repository / "mkdocs.yml").write_text("plugins: []\n")
    (repository / "content/guide.md").write_text("<iframe>\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "Broken")
    (repository / "mkdocs.yml").write_text(
        "site_name: X\nsite_url: https://example.org/x\ndocs_dir: content\n"
    )
    report = repository / "report.md"
    options = ["--folder", str(repository), "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "main", "proposal", *options])
    assert "([kind-wrong](https://example.org/x/rules/#kind-wrong))" in report.read_text()
    assert result.exit_code == 1
    assert "Look before you take it in: it touches 2 files that are no records" in result.output
    assert "Settings and programs: read each as a program (1)\n  mkdocs.yml\n" in result.output
    assert "read each as readers will (1)\n  content/guide.md\n" in result.output
    assert "Nothing changes" not in result.output
    assert r"mkdocs\.yml" in report.read_text()


def test_the_check_is_reported_where_there_is_nothing_to_compare_with(repository: Path) -> None:
    report = repository / "report.md"
    options = ["--folder", str(repository), "--report", str(report)]
    result = CliRunner().invoke(main, ["review", "no-such", "proposal", *options])
    assert result.exit_code == 1
    assert "no-such: there is no such revision" in result.output
    assert "Everything could be read" in report.read_text()


def test_a_broken_proposal_is_told_and_not_compared(repository: Path) -> None:
    (repository / "content/sources/bad.yml").write_text("kind: sauce\n")
    git(repository, "add", "-A")
    git(repository, "commit", "-q", "-m", "Broken")
    result = CliRunner().invoke(
        main, ["review", "main", "proposal", "--folder", str(repository), "--format", "github"]
    )
    assert result.exit_code == 1
    assert "::error file=content/sources/bad.yml,line=1,col=7,title=kind-wrong::" in result.output
    assert "Answers" not in result.output
    assert "read each" not in result.output
    at = CliRunner().invoke(main, ["check", str(repository), "--at", "proposal"])
    assert at.exit_code == 1
    assert CliRunner().invoke(main, ["check", str(repository), "--at", "main"]).exit_code == 0
    assert CliRunner().invoke(main, ["check", str(repository), "--at", "no-such"]).exit_code == 1
