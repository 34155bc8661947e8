"""Paths that are long or deep, and acts by the thousand: a sentence, or an answer, in good time."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from pathlib import Path

import pytest

from spanbook.reading.git_tree import content_at
from spanbook.reading.problems import Problem
from spanbook.rules.checking import check_folder, check_tree
from tests.hostile.records import GOOD
from tests.support.acts import act
from tests.support.command import project, run
from tests.support.repository import git

PATHS = {
    "1,100 folders in folders": "sources/" + "d/" * 1100 + "a.yml",
    "1,100 folders with a guide": "guides/" + "d/" * 1100 + "a.md",
    "1,100 folders with a photograph": "photographs/" + "d/" * 1100 + "a.jpg",
    "1,100 hidden folders": ".hidden/" + "d/" * 1100 + "a.md",
    "a path of nearly 4,096 bytes": "sources/" + ("d" * 200 + "/") * 19 + "a.yml",
    "a path of more than 4,096 bytes": "sources/" + ("d" * 200 + "/") * 30 + "a.yml",
    "a name of 255 bytes": "sources/" + "a" * 251 + ".yml",
    "a photograph's name of 255 bytes": "photographs/" + "a" * 251 + ".jpg",
    "a guide's name of 255 bytes": "a" * 252 + ".md",
    "letters of four bytes": "sources/" + "𒐫" * 50 + ".yml",
}


@pytest.fixture
def folder(tmp_path: Path) -> Iterator[Path]:
    yield project(tmp_path / "project")
    # What is so deep is too deep for Python's own way to remove it.
    subprocess.run(["rm", "-rf", str(tmp_path / "project")], check=True)


def _lay(content: Path, path: str) -> None:
    """Folder by folder, each from the one above: no call takes so long a path."""
    *folders, name = path.split("/")
    at = os.open(content, os.O_RDONLY)
    for folder in folders:
        if not os.access(folder, os.F_OK, dir_fd=at):
            os.mkdir(folder, dir_fd=at)
        below = os.open(folder, os.O_RDONLY, dir_fd=at)
        os.close(at)
        at = below
    with os.fdopen(os.open(name, os.O_WRONLY | os.O_CREAT, dir_fd=at), "wb") as file:
        file.write(GOOD.encode())
    os.close(at)


def _told(problems: tuple[Problem, ...]) -> list[str]:
    assert all(str(problem).isprintable() for problem in problems)
    return [str(problem) for problem in problems if problem.name == "file-path-long"]


@pytest.mark.parametrize("name", PATHS)
def test_a_path_too_long_is_told_on_the_disk_and_out_of_git_alike(name: str, folder: Path) -> None:
    _lay(folder / "content", PATHS[name])
    on_disk = _told(check_folder(folder).problems)
    assert len(on_disk) == 1
    assert "a path of more than 200 bytes; use fewer and shorter folders" in on_disk[0]
    assert len(on_disk[0]) < 1200
    result = run("check", folder)
    assert (result.exit_code, "Traceback" in result.output) == (1, False)
    assert run("build", folder).exit_code == 1
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A", ".", ":!content/" + PATHS[name].split("/")[0])
    hashed = ["git", "-C", str(folder), "hash-object", "-w", "mkdocs.yml"]
    blob = subprocess.run(hashed, check=True, capture_output=True, text=True).stdout.strip()
    line = f"100644 {blob}\tcontent/{PATHS[name]}\n".encode()
    subprocess.run(
        ["git", "-C", str(folder), "update-index", "--add", "--index-info"], input=line, check=True
    )
    git(folder, "commit", "-q", "-m", "A proposal")
    assert _told(check_tree(content_at(folder, "main"), "content").problems) == on_disk


@pytest.mark.parametrize("where", [".hidden/loop", ".hidden/deeper/loop"])
def test_a_link_in_a_hidden_folder_is_told_for_the_build_would_follow_it(where: str, folder: Path) -> None:
    (folder / "content" / where).parent.mkdir(parents=True)
    (folder / "content" / where).symlink_to("..")
    on_disk = {(p.name, p.place.path) for p in check_folder(folder).problems}
    assert ("file-link", f"content/{where}") in on_disk
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "A proposal")
    assert {
        (p.name, p.place.path) for p in check_tree(content_at(folder, "main"), "content").problems
    } == on_disk


def _acts(content: Path, count: int) -> None:
    (content / "supersessions").mkdir(exist_ok=True)
    for i in range(count):
        text = act(f"a-{i}", f"n{i}", f"n{i + 1}", "evidence: [{source: book}]\n")
        (content / f"supersessions/a-{i}.yml").write_text(text)


def test_three_hundred_acts_in_a_row_are_built(folder: Path) -> None:
    """Of 250 none was; five thousand, by hand, take as long as their pages."""
    _acts(folder / "content", 300)
    assert run("check", "--strict", folder).exit_code == 0
    built = run("build", "--strict", folder)
    assert built.exit_code == 0, built.output
    page = (folder / "site/parts/example-works/n0/index.html").read_text()
    assert "Order n300." in page
    assert "n20 (goes on under that number)" in page


def test_five_thousand_acts_in_a_row_are_checked_and_asked(folder: Path) -> None:
    _acts(folder / "content", 5000)
    assert run("check", "--strict", folder).exit_code == 0
    asked = run("ask", "n0", "--order", "2", "--folder", folder)
    assert asked.output.startswith("Order 2 × n5000.")
    assert run("ask", "n0", "--order", "2", "--json", "--folder", folder).exit_code == 0


def test_five_thousand_acts_in_a_circle_are_told(folder: Path) -> None:
    _acts(folder / "content", 5000)
    last = folder / "content/supersessions/a-4999.yml"
    last.write_text(last.read_text().replace("n5000", "n0"))
    result = run("check", folder)
    assert (result.exit_code, result.output.count("supersession-cycle")) == (1, 1)
