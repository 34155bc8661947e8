"""What the linter, the type checker and the guides have to agree to."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import click
import pytest

from spanbook.cli import main

PROJECT = Path(__file__).parents[1]


@pytest.mark.parametrize(
    "command",
    [["ruff", "check", "builder", "tests"], ["ruff", "format", "--check", "builder", "tests"], ["mypy"]],
    ids=["ruff", "format", "mypy"],
)
def test_the_linters_agree(command: list[str]) -> None:
    result = subprocess.run(
        [sys.executable, "-m", *command], cwd=PROJECT, capture_output=True, text=True, check=False
    )
    assert result.returncode == 0, result.stdout + result.stderr


def _command(text: str) -> str:
    (line,) = [line for line in text.splitlines() if line.endswith("pytest") and "venv" in line]
    return line


def test_ci_runs_exactly_the_command_of_the_readme() -> None:
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    assert _command((PROJECT / ".ci/run").read_text(encoding="utf-8")) == _command(readme)


def test_every_command_and_option_is_in_the_readme() -> None:
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    assert isinstance(main, click.Group)
    for name, command in main.commands.items():
        assert f"`spanbook {name}" in readme
        for parameter in command.params:
            if isinstance(parameter, click.Option):
                assert parameter.opts[0] in readme, (name, parameter.opts)


def test_the_guide_names_every_module_of_the_house() -> None:
    guide = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    for file in (PROJECT / "builder/spanbook").glob("*.py"):
        assert file.name.startswith("__") or f"`{file.name}`" in guide, file.name


def test_what_is_installed_is_pinned() -> None:
    pinned = dict(
        line.split("==") for line in (PROJECT / "builder/constraints.txt").read_text().splitlines() if line
    )
    needed = re.findall(r'^  "([a-z-]+)>=', (PROJECT / "pyproject.toml").read_text(), re.MULTILINE)
    names = {re.sub(r"[-_.]+", "-", name).lower() for name in pinned}
    assert set(needed) <= names
