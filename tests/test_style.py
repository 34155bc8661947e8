"""What the linter, the type checker and the guides have to agree to."""

from __future__ import annotations

import re
import subprocess
import sys
from importlib import import_module
from pathlib import Path

import click
import pytest
from cogapp import Cog

from spanbook.cli import main
from spanbook.cli.commands import COMMANDS
from spanbook.cli.reference import commands
from tests.support.command import project

PROJECT = Path(__file__).parents[1]


def _run(*module: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", *module], cwd=PROJECT, capture_output=True, text=True, check=False
    )


@pytest.mark.slow
@pytest.mark.parametrize(
    "command",
    [["ruff", "check", "builder", "tests"], ["ruff", "format", "--check", "builder", "tests"], ["mypy"]],
    ids=["ruff", "format", "mypy"],
)
def test_the_linters_agree(command: list[str]) -> None:
    result = _run(*command)
    assert result.returncode == 0, result.stdout + result.stderr


def _command(text: str) -> str:
    (line,) = [line for line in text.splitlines() if line.endswith("pytest") and "venv" in line]
    return line


def test_ci_runs_exactly_the_command_of_the_readme() -> None:
    readme = (PROJECT / "README.md").read_text(encoding="utf-8")
    assert _command((PROJECT / ".ci/run").read_text(encoding="utf-8")) == _command(readme)


def test_the_pages_about_the_command_are_what_the_command_says(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    pages = ["README.md", "builder/spanbook/cli/README.md", "builder/spanbook/faces/README.md"]
    monkeypatch.chdir(PROJECT)
    failed = Cog().main(["cog", "--check", *pages])
    assert not failed, f"{capsys.readouterr().out}\nwrite them anew: .venv/bin/cog -r {' '.join(pages)}"


def test_every_command_and_option_is_in_the_reference() -> None:
    reference = (PROJECT / "builder/spanbook/cli/README.md").read_text(encoding="utf-8")
    for name, command in commands():
        assert f"`spanbook {name}" in reference
        for parameter in command.params:
            if isinstance(parameter, click.Option):
                assert f"`{parameter.opts[0]}" in reference, (name, parameter.opts)
                assert parameter.help, (name, parameter.opts)


def test_the_list_of_commands_says_what_each_says_of_itself() -> None:
    """It stands apart from them, so that `spanbook --help` need not load what they use."""
    for file in (PROJECT / "builder/spanbook/cli").glob("[a-z]*.py"):
        import_module(f"spanbook.cli.{file.stem}")
    assert isinstance(main, click.Group)
    assert {name: command.help for name, command in commands()}.keys() == main.commands.keys()
    for name, command in commands():
        assert " ".join((command.help or "").split("\n\n")[0].split()) == COMMANDS[name][1]


def test_help_loads_none_of_what_the_commands_use() -> None:
    """How long it takes is measured in tests/bench/README.md."""
    code = "import sys\nfrom spanbook.cli import main\ntry: main(['--help'])\nfinally: print(*sys.modules)"
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = done.stdout.split("Commands:")[1].split()
    assert "spanbook.cli.commands" in loaded
    heavy = ("spanbook.reading", "spanbook.answers", "spanbook.interface", "mkdocs", "jsonschema", "PIL")
    assert [module for module in loaded if module.startswith(heavy)] == []


@pytest.mark.slow
def test_checking_sound_records_loads_neither_what_explains_nor_graphs(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    code = "import sys\nfrom spanbook.cli import main\ntry: main(['check', sys.argv[1]])\n"
    code += "finally: print('loaded', *sys.modules)"
    done = subprocess.run([sys.executable, "-c", code, folder], capture_output=True, text=True, check=True)
    loaded = done.stdout.partition("loaded")[2].split()
    assert "spanbook.rules.supersessions" in loaded
    assert {"networkx", "jsonschema", "mkdocs", "jinja2"}.isdisjoint(loaded)


@pytest.mark.slow
def test_the_pieces_of_the_changelog_can_be_put_together() -> None:
    done = _run("towncrier", "build", "--draft", "--version", "1.0.0")
    assert done.returncode == 0, done.stdout + done.stderr
    pieces = [p for p in (PROJECT / "builder/changes").iterdir() if p.name != "README.md"]
    text = " ".join(done.stdout.split())
    missing = [p.name for p in pieces if " ".join(p.read_text(encoding="utf-8").split()) not in text]
    assert missing == [], "a piece is named +SHORT-NAME.TYPE.md, TYPE one of those in pyproject.toml"


def test_every_page_that_a_guide_leads_to_is_there() -> None:
    guides = [PROJECT / "README.md", PROJECT / "DEVELOPERS.md", *(PROJECT / ".github").glob("*.md")]
    for guide in guides:
        for target in re.findall(r"\]\(([^)#:]+)\)", guide.read_text(encoding="utf-8")):
            assert (guide.parent / target).exists(), (guide.name, target)


def test_the_guide_names_every_floor_of_the_house() -> None:
    guide = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    floors = [p.name for p in (PROJECT / "builder/spanbook").iterdir() if (p / "__init__.py").is_file()]
    assert len(floors) > 8
    for floor in floors:
        assert f"| `{floor}/` |" in guide, floor


def test_what_is_installed_is_pinned() -> None:
    pinned = dict(
        line.split("==") for line in (PROJECT / "builder/constraints.txt").read_text().splitlines() if line
    )
    needed = re.findall(r'^  "([a-z-]+)>=', (PROJECT / "pyproject.toml").read_text(), re.MULTILINE)
    names = {re.sub(r"[-_.]+", "-", name).lower() for name in pinned}
    assert set(needed) <= names


def test_every_test_that_the_page_of_promises_names_is_there() -> None:
    page = (PROJECT / "builder/SECURITY.md").read_text(encoding="utf-8")
    promises = [line for line in page.splitlines() if line.startswith("| ") and "tested in" not in line]
    assert len(promises) > 15
    for promise in promises[1:]:
        named = re.findall(r"`(tests/[\w/]+\.py)(?:::(\w+))?`", promise.rsplit(" | ", 1)[1])
        assert named, promise
        for file, test in named:
            assert f"def {test or 'test_'}" in (PROJECT / file).read_text(encoding="utf-8"), (file, test)
