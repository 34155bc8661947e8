"""The house: folders are floors, imports go down only, and only one floor knows MkDocs.

The contracts stand in pyproject.toml; `.venv/bin/lint-imports` tells each import that breaks one.
"""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

PROJECT = Path(__file__).parents[1]
PACKAGE = PROJECT / "builder/spanbook"
MODULES = {str(file.relative_to(PACKAGE)): file.read_text(encoding="utf-8") for file in PACKAGE.rglob("*.py")}
# Why each of these may be longer than 300 lines.
LONG: dict[str, str] = {
    "faces/api.py": "one method a question, most of it what each gives and raises",
}

TOP = {"README.md", "DEVELOPERS.md", "LICENSE", "mkdocs.yml", "pyproject.toml"}
FOLDERS = {"content", "schema", "builder", "tests"}


def test_the_top_of_the_project_is_fixed() -> None:
    """What a project is, is seen at a glance; dot-files aside, nothing is added to it."""
    listed = subprocess.run(
        ["git", "ls-files", "-z"], cwd=PROJECT, capture_output=True, text=True, check=True
    )
    files = [name.split("/") for name in listed.stdout.split("\0") if name and not name.startswith(".")]
    assert {path[0] for path in files if len(path) == 1} == TOP
    assert {path[0] for path in files if len(path) > 1} == FOLDERS


@pytest.mark.slow
def test_imports_keep_the_contracts() -> None:
    command = [sys.executable, "-c", "from importlinter.cli import lint_imports_command as run; run()"]
    done = subprocess.run([*command, "--no-cache"], cwd=PROJECT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_long_module_has_its_reason() -> None:
    assert {name for name, text in MODULES.items() if len(text.splitlines()) > 300} <= set(LONG)


def test_the_builder_never_names_the_content() -> None:
    """It is given paths; what the demonstration holds is nothing to it."""
    assert [name for name, text in MODULES.items() if "wexmoor" in text.lower()] == []


def test_what_answers_and_pages_keep_is_noted() -> None:
    """A value that `functools` keeps is read without a note: what was made from it would never be made again.

    What these keep follows from the program alone, and so does what a page's templates are.
    """
    pure = {"answers/sizes_typed.py", "site/html.py"}
    keep = re.compile(r"\b(cached_property|lru_cache|functools\.cache|import cache)\b")
    floors = ("answers/", "site/", "wording/", "press/data.py", "press/jobs.py", "press/work.py")
    kept = {name for name, text in MODULES.items() if name.startswith(floors) and keep.search(text)}
    assert kept == pure
