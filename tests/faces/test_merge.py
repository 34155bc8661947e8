"""A proposal is judged as it would be merged: real repositories with an old branch, and two that clash."""

from __future__ import annotations

import os
import re
import subprocess
import tempfile
from pathlib import Path

import pytest

import spanbook
from spanbook.reading.git_merge import Clash, How
from tests.support.command import lid_moved, project, run
from tests.support.repository import git
from tests.support.trees import tree

pytestmark = pytest.mark.slow  # git is asked, and sites are built

FILE = "content/assemblies/lid.yml"
KNOB = """\
kind: assembly
id: knob
title: Knob
position: body/cover
serials:
- {series: xa, first: 21, last: 30, evidence: [{source: book}]}
"""
LETTER = "kind: source\nid: letter\ntitle: A letter\nclass: correspondence\n"


def commit(folder: Path, message: str) -> None:
    git(folder, "add", "-A")
    git(folder, "commit", "-qm", message)


def narrowed(folder: Path, last: int) -> None:
    file = folder / FILE
    file.write_text(file.read_text().replace("last: 20", f"last: {last}"))


@pytest.fixture
def old_branch(tmp_path: Path) -> Path:
    """`proposal` adds a letter; since it began main has got a knob, and settings."""
    folder = project(tmp_path / "p")
    git(folder, "init", "-q", "-b", "main")
    commit(folder, "The records")
    git(folder, "switch", "-qc", "proposal")
    (folder / "content/sources/letter.yml").write_text(LETTER)
    commit(folder, "A letter")
    git(folder, "switch", "-q", "main")
    (folder / "content/assemblies/knob.yml").write_text(KNOB)
    with (folder / "mkdocs.yml").open("a") as file:
        file.write("# more\n")
    commit(folder, "A knob")
    return folder


@pytest.fixture
def clashing(tmp_path: Path) -> Path:
    """Main and `proposal` let the same span end elsewhere, and each adds a letter of its own."""
    folder = project(tmp_path / "p")
    git(folder, "init", "-q", "-b", "main")
    commit(folder, "The records")
    for branch, last in (("proposal", 15), ("main", 12)):
        git(folder, "switch", "-q", *(["-c"] if branch == "proposal" else []), branch)
        narrowed(folder, last)
        (folder / "content/sources/letter.yml").write_text(LETTER.replace("A letter", f"Of {branch}"))
        commit(folder, f"Up to {last}")
    return folder


def test_what_was_merged_since_shows_as_nothing(old_branch: Path) -> None:
    found = spanbook.review(old_branch, "main", "proposal")
    assert (found.touched, found.clashes) == ((), ())
    assert found.comparison is not None
    assert [(one.sort, one.id) for one in found.comparison.records] == [("added", "letter")]
    assert not found.comparison.dead
    assert found.comparison.records == spanbook.compare("main", "proposal", old_branch, merge=True).records
    plain = spanbook.compare("main", "proposal", old_branch)
    assert ("removed", "knob") in [(one.sort, one.id) for one in plain.records]
    assert plain.besides == ("mkdocs.yml",)


def test_the_command_says_the_same(old_branch: Path) -> None:
    told = run("review", "main", "proposal", "--folder", old_branch)
    assert told.exit_code == 0, told.output
    assert "source letter: added" in told.output
    assert "knob" not in told.output
    merged = run("compare", "main", "proposal", "--folder", old_branch, "--merge")
    assert merged.output.startswith(
        "In short\n  nothing that answers depend on changed (source letter: added)\nRecords (1)\n"
    )
    assert "assembly knob: removed" in run("compare", "main", "proposal", "--folder", old_branch).output


def test_the_records_are_checked_as_merged(old_branch: Path) -> None:
    """Each is sound by itself; together they give one id twice."""
    git(old_branch, "switch", "-q", "proposal")
    (old_branch / "content/assemblies/more").mkdir()
    (old_branch / "content/assemblies/more/knob.yml").write_text(KNOB)
    commit(old_branch, "A knob")
    assert not spanbook.fails(spanbook.check(old_branch, at="proposal").problems)
    found = spanbook.review(old_branch, "main", "proposal")
    assert spanbook.fails(found.checked.problems)
    assert found.comparison is None


def test_clashes_are_told_per_record(clashing: Path) -> None:
    found = spanbook.review(clashing, "main", "proposal")
    letter = "content/sources/letter.yml"
    assert found.clashes == (Clash(FILE, How.BOTH_CHANGED), Clash(letter, How.BOTH_ADDED))
    assert (found.comparison, spanbook.fails(found.checked.problems)) == (None, False)


@pytest.mark.parametrize("form", ["text", "github"])
def test_clashes_end_a_review_with_1(clashing: Path, tmp_path: Path, form: str) -> None:
    report = tmp_path / "report.md"
    options = ["--format", form, "--report", str(report)]
    told = run("review", "main", "proposal", "--folder", clashing, *options)
    assert told.exit_code == 1, told.output
    headline = "It cannot be merged: 2 files clash with what the main branch holds by now."
    assert (f"::error title=Clashes::{headline}\n" if form == "github" else f"{headline}\n") in told.output
    line = f"assembly lid ({FILE}): the main branch and the proposal change the same lines\n"
    assert line in told.output
    assert "Nothing changes" not in told.output
    assert report.read_text().startswith(f"# {headline}\n")
    assert r"source letter \(content/sources/letter\.yml\)\:" in report.read_text()
    compared = run("compare", "main", "proposal", "--folder", clashing, "--merge")
    assert compared.exit_code == 1
    assert "proposal cannot be merged into main; mend this in proposal first:\n" in compared.output
    assert line in compared.output


@pytest.mark.parametrize(("removes", "how"), [("main", How.MAIN_REMOVED), ("proposal", How.PROPOSAL_REMOVED)])
def test_one_removes_what_the_other_changes(tmp_path: Path, removes: str, how: How) -> None:
    folder = project(tmp_path / "p")
    git(folder, "init", "-q", "-b", "main")
    commit(folder, "The records")
    git(folder, "branch", "proposal")
    for branch in ("main", "proposal"):
        git(folder, "switch", "-q", branch)
        if branch == removes:
            (folder / FILE).unlink()
        else:
            narrowed(folder, 15)
        commit(folder, branch)
    assert spanbook.review(folder, "main", "proposal").clashes == (Clash(FILE, how),)


def test_a_project_in_a_folder_of_its_repository(tmp_path: Path) -> None:
    folder = project(tmp_path / "top/records")
    git(tmp_path / "top", "init", "-q", "-b", "main")
    commit(folder, "The records")
    git(folder, "branch", "proposal")
    for branch, last in (("main", 12), ("proposal", 15)):
        git(folder, "switch", "-q", branch)
        narrowed(folder, last)
        (tmp_path / "top" / f"{branch}.txt").write_text("beside it")
        git(tmp_path / "top", "add", "-A")
        git(folder, "commit", "-qm", branch)
    found = spanbook.review(folder, "main", "proposal")
    assert found.clashes == (Clash(FILE, How.BOTH_CHANGED),)
    assert found.touched == ("../proposal.txt",)
    assert spanbook.review(folder, "main~1", "proposal").comparison is not None


@pytest.mark.parametrize("form", ["text", "github"])
def test_an_address_that_would_die_fails_a_review(old_branch: Path, tmp_path: Path, form: str) -> None:
    git(old_branch, "switch", "-qc", "renaming", "main")
    lid_moved(old_branch)
    moved = old_branch / "content/assemblies/cover-plate.yml"
    kept = moved.read_text()
    moved.write_text(kept.replace("formerly: [lid]\n", ""))
    commit(old_branch, "Another name")
    report = tmp_path / "report.md"
    options = ["--folder", str(old_branch), "--format", form, "--report", str(report)]
    told = run("review", "main", "renaming", *options)
    assert told.exit_code == 1, told.output
    headline = "It breaks links: 2 addresses would die. Name a record's former id under formerly"
    assert (f"::error title=Addresses would die::{headline}" in told.output) == (form == "github")
    assert f"# {headline}" in report.read_text()
    assert "(2)\n  assemblies/lid/\n  assemblies/lid/#span-xa\n" in told.output
    assert spanbook.review(old_branch, "main", "renaming").dying == (
        "assemblies/lid/",
        "assemblies/lid/#span-xa",
    )
    moved.write_text(kept)
    commit(old_branch, "The former name")
    told = run("review", "main", "renaming", *options)
    assert told.exit_code == 3, "only the page at the front is no record"
    assert "links: " not in told.output


def test_problems_that_main_has_already_are_counted_and_not_listed(old_branch: Path) -> None:
    """Main holds a source that nobody names; the proposal brings another, and takes a third away."""
    second = old_branch / "content/sources/second.yml"
    second.write_text("# a line more\n" + LETTER.replace("letter", "second"))
    commit(old_branch, "A second letter")
    git(old_branch, "switch", "-qc", "more")
    second.write_text(LETTER.replace("letter", "second") + "notes: Moved up by a line\n")
    (old_branch / "content/sources/letter.yml").write_text(LETTER)
    (old_branch / "content/sources/book.yml").unlink()
    commit(old_branch, "More")
    found = spanbook.review(old_branch, "main", "more")
    assert {(p.place.path, p.name) for p in found.older} >= {("content/sources/second.yml", "source-unused")}
    fresh = {(p.place.path, p.severity) for p in found.fresh}
    assert ("content/sources/letter.yml", spanbook.Severity.WARNING) in fresh
    assert ("content/assemblies/knob.yml", spanbook.Severity.ERROR) in fresh
    assert "content/sources/second.yml" not in {p.place.path for p in found.fresh}
    assert {*found.fresh, *found.older} == set(found.checked.problems)
    for form in ("text", "github"):
        told = run("review", "main", "more", "--folder", old_branch, "--format", form)
        assert told.exit_code == 1
        assert "sources/second.yml" not in told.output
        assert re.search(
            r"Not listed: what the main branch has already \(1 warning, .*advice\); ", told.output
        )
        # Nobody changed the knob: a forge has no line to show it at.
        assert "\ncontent/assemblies/knob.yml:6:" in f"\n{told.output}"
        assert "::error file=content/assemblies/knob.yml" not in told.output
        assert ("::warning file=content/sources/letter.yml" in told.output) == (form == "github")


def test_an_old_error_still_fails(old_branch: Path) -> None:
    (old_branch / "content/sources/bad.yml").write_text("kind: sauce\n")
    commit(old_branch, "Broken")
    told = run("review", "main", "proposal", "--folder", old_branch)
    assert told.exit_code == 1
    assert "bad.yml" not in told.output
    assert re.search(r"has already \(1 error, .*; `spanbook check` tells it\. Until its errors", told.output)


@pytest.fixture
def mending(old_branch: Path) -> Path:
    """Main has two errors, and a branch for each way to deal with them."""
    for name in ("bad", "worse"):
        (old_branch / f"content/sources/{name}.yml").write_text("kind: sauce\n")
    commit(old_branch, "Broken")
    for branch, gone in (("one", ["bad"]), ("both", ["bad", "worse"])):
        git(old_branch, "switch", "-qc", branch, "main")
        for name in gone:
            (old_branch / f"content/sources/{name}.yml").unlink()
        (old_branch / "content/sources/letter.yml").write_text(LETTER)
        commit(old_branch, "Mended")
    git(old_branch, "switch", "-qc", "other", "one")
    (old_branch / "content/sources/letter.yml").write_text("kind: stew\n")
    commit(old_branch, "An error for another")
    git(old_branch, "switch", "-qc", "settings", "one")
    (old_branch / "mkdocs.yml").write_text("plugins: []\n")
    commit(old_branch, "Settings")
    git(old_branch, "switch", "-q", "main")
    return old_branch


@pytest.mark.parametrize(
    ("branch", "code", "said"),
    [
        ("one", 0, "It mends an error of the main branch; one remains.\n"),
        ("both", 0, "It mends 2 errors of the main branch; none remains.\n"),
        ("other", 1, "It mends an error of the main branch; one remains.\n"),
        ("settings", 3, "Look before you take it in: it touches a file that is no record"),
        ("proposal", 1, "Not listed: what the main branch has already (2 errors, "),
    ],
)
def test_a_proposal_that_mends_ends_well_unless_it_brings_errors(
    mending: Path, branch: str, code: int, said: str
) -> None:
    told = run("review", "main", branch, "--folder", mending)
    assert (told.exit_code, said in told.output) == (code, True), told.output
    # Nothing can be compared with what has errors: what is known is told, and that more is not.
    untold = "cannot be told while the main branch has errors" in told.output
    assert untold == (branch != "proposal")
    if untold:
        assert "\n  content/sources/bad.yml\n" in told.output
        assert "Nothing changes" not in told.output
    assert spanbook.review(mending, "main", branch).comparison is None


def test_nothing_is_written_into_the_project_and_nothing_is_left(
    old_branch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "own").mkdir()
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path / "own"))
    before = tree(old_branch)
    assert run("review", "main", "proposal", "--folder", old_branch).exit_code == 0
    assert run("compare", "main", "proposal", "--folder", old_branch, "--merge").exit_code == 0
    assert tree(old_branch) == before
    assert list((tmp_path / "own").iterdir()) == []


def test_a_work_tree_of_another_folder_and_a_shallow_clone(old_branch: Path, tmp_path: Path) -> None:
    git(old_branch, "worktree", "add", "-q", "--detach", str(tmp_path / "beside"), "main")
    assert spanbook.review(tmp_path / "beside", "HEAD", "proposal").comparison is not None
    shallow = tmp_path / "shallow"
    git(tmp_path, "clone", "-q", "--depth", "1", "--no-single-branch", old_branch.as_uri(), str(shallow))
    told = run("review", "origin/main", "origin/proposal", "--folder", shallow)
    assert told.exit_code == 1
    assert "origin/proposal cannot be merged into origin/main: " in told.output
    assert "unrelated histories" in told.output


def test_an_older_git_is_told(old_branch: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = subprocess.run(["which", "git"], capture_output=True, text=True, check=True).stdout.strip()
    shim = tmp_path / "bin/git"
    shim.parent.mkdir()
    shim.write_text(f'#!/bin/sh\n[ "$1" = version ] && exec echo git version 2.37.9\nexec {real} "$@"\n')
    shim.chmod(0o755)
    monkeypatch.setenv("PATH", f"{shim.parent}{os.pathsep}{os.environ['PATH']}")
    told = run("review", "main", "proposal", "--folder", old_branch)
    assert told.exit_code == 1
    assert "takes git 2.38 or newer; this is git version 2.37.9." in told.output
    assert " advice statement-without-evidence: " in told.output, "what can be judged is"
    assert run("compare", "main", "proposal", "--folder", old_branch).exit_code == 0
    assert run("compare", "main", "proposal", "--folder", old_branch, "--merge").exit_code == 1
