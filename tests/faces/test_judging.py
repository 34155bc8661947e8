"""Judging from Python: the same answers as the command gives, as values."""

from __future__ import annotations

from pathlib import Path

import pytest

import spanbook
from tests.support.command import BAD, LID, project, run
from tests.support.repository import git

pytestmark = pytest.mark.slow  # git is asked, and sites are built


@pytest.fixture
def proposal(tmp_path: Path) -> Path:
    """A repository whose branch `proposal` lets the lid run on, and touches the settings."""
    folder = project(tmp_path)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", ".")
    git(folder, "commit", "-qm", "a")
    git(folder, "switch", "-qc", "proposal")
    file = folder / "content/assemblies/lid.yml"
    file.write_text(file.read_text().replace("last: 20", "last: 15"))
    (folder / "mkdocs.yml").write_text(
        "site_name: Y\n" + (folder / "mkdocs.yml").read_text().split("\n", 1)[1]
    )
    git(folder, "commit", "-qam", "b")
    return folder


def test_a_folder_is_checked(tmp_path: Path) -> None:
    checked = spanbook.check(project(tmp_path, BAD))
    (problem,) = [p for p in checked.problems if p.severity is spanbook.Severity.ERROR]
    assert (problem.place.path, problem.place.line) == ("content/assemblies/lid.yml", 6)
    assert spanbook.fails(checked.problems)
    assert spanbook.explain(problem.name).reason == spanbook.all_rules()[problem.name].reason


def test_warnings_fail_only_strictly(tmp_path: Path) -> None:
    letter = "# file: content/sources/letter.yml\nkind: source\nid: letter\ntitle: A\nclass: manual\n"
    problems = spanbook.check(project(tmp_path, letter)).problems
    assert (spanbook.fails(problems), spanbook.fails(problems, strict=True)) == (False, True)


def test_a_name_that_no_problem_has() -> None:
    with pytest.raises(LookupError, match="there is no problem named nonsense"):
        spanbook.explain("nonsense")


def test_a_revision_is_checked_as_it_was(proposal: Path) -> None:
    (proposal / "content/assemblies/lid.yml").write_text(BAD.split("\n", 1)[1])
    assert spanbook.fails(spanbook.check(proposal).problems)
    assert not spanbook.fails(spanbook.check(proposal, at="main").problems)
    with pytest.raises(spanbook.NoRevision):
        spanbook.check(proposal, at="nowhere")


def test_a_proposal_is_judged(proposal: Path) -> None:
    found = spanbook.review(proposal, "main", "proposal")
    assert found.touched == ("mkdocs.yml",)
    assert found.comparison is not None
    (change,) = found.comparison.answers
    assert (change.series, change.position) == ("xa", "body/cover")
    assert (change.change.first, change.change.last) == (16, 20)
    assert found.comparison.answers == spanbook.compare("main", "proposal", proposal).answers


def test_of_a_broken_proposal_the_problems_and_what_it_touches_are_told(proposal: Path) -> None:
    (proposal / "content/assemblies/lid.yml").write_text(BAD.split("\n", 1)[1])
    git(proposal, "commit", "-qam", "broken")
    found = spanbook.review(proposal, "main", "proposal")
    assert spanbook.fails(found.checked.problems)
    assert (found.touched, found.comparison) == (("mkdocs.yml",), None)


def test_addresses_that_would_die_are_told(tmp_path: Path) -> None:
    checked = spanbook.check(project(tmp_path))
    older = "assemblies/lid/\nassemblies/cap/\n"
    (problem,) = spanbook.dead_addresses(checked, older, "addresses.txt")
    assert (problem.place, "assemblies/cap/" in problem.read) == (spanbook.Place("addresses.txt", 2), True)


def test_a_record_is_written_once_and_only_when_it_is_sound(tmp_path: Path) -> None:
    folder = project(tmp_path)
    values = {"kind": "source", "id": "a-letter", "title": "A letter", "class": "correspondence"}
    file = spanbook.write_record(folder, values)
    assert file == folder / "content/sources/a-letter.yml"
    assert file.read_text(encoding="utf-8") == spanbook.record_text(folder, values)
    with pytest.raises(FileExistsError):
        spanbook.write_record(folder, values)
    with pytest.raises(spanbook.Problems, match="key-missing"):
        spanbook.write_record(folder, {"kind": "source", "id": "another"})
    assert not (folder / "content/sources/another.yml").exists()
    assert run("check", folder).exit_code == 0


def test_a_site_is_built_and_a_failure_is_told(tmp_path: Path) -> None:
    folder = project(tmp_path / "a")
    told: list[str] = []
    built = spanbook.build(folder, strict=True, say=told.append)
    assert (built.folder / "assemblies/lid/index.html").is_file()
    assert told
    with pytest.raises(spanbook.BuildFailed):
        spanbook.build(project(tmp_path / "b", LID.replace("first: 1", "first: one")))
