"""Strangers' text in the logs and summaries of forges: no runner obeys it, and it drives no terminal."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import Result

from spanbook.outputs.problems import github
from spanbook.outputs.problems.forms import FORMS
from spanbook.reading.problems import Place, Problem, Severity
from tests.support.command import LID, project, run
from tests.support.repository import git

# Each would be obeyed, or would drive a terminal, if it were printed as it is.
COMMANDS = {
    "an error of its own": "::error file=x::y",
    "a mask": "::add-mask::a",
    "an output": "  ::set-output name=a::b",
    "the end of a guessed mark": "::stop-commands::x",
    "an older command": "##[error]x",
    "an older command in the middle": "a ##[add-mask]a",
    "a colour": "a \x1b[31m red",
    "a title of the window": "\x1b]0;x\x07",
    "a control of eight bits": "a \x9b31m red",
    "a return": "a\r::error::x",
    "a line of its own": "a\n::error::x",
    "a section of a log": "section_start:1:x\r\x1b[0Kx",
    "half a pair": "a \udcff b",
    "turned round": "a \u202e b",
}


def obeyed(output: str) -> list[str]:
    """What GitHub's runner takes for commands, as its sources have it (actions/runner, `ActionCommand.cs`).

    Spaces in front of `::` do not matter, `##[` is looked for everywhere, and after `stop-commands` nothing
    is obeyed but the mark that ends it.
    """
    found, mark = list[str](), ""
    for line in re.split(r"[\r\n]", output):
        text = line.lstrip()
        if mark:
            mark = "" if text == f"::{mark}::" else mark
        elif text.startswith("::stop-commands::"):
            mark = text.removeprefix("::stop-commands::")
            assert re.fullmatch("[0-9a-f]{40}", mark), "a mark that cannot be guessed"
        elif re.match("::.*?::", text) or "##[" in text:
            found.append(text)
    assert not mark, "commands stay stopped"
    return found


def proposal(folder: Path) -> Path:
    """A project whose proposal has every command in a file's name, and where one may stand, in a record."""
    project(folder)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", "The records")
    git(folder, "switch", "-q", "-c", "proposal")
    for i, text in enumerate(COMMANDS.values()):
        name = text.replace("/", "-").encode("utf-8", "surrogateescape").decode("utf-8", "surrogateescape")
        for place in (folder / name, folder / f"content/sources/{name}.yml", folder / f"content/{name}.md"):
            try:
                place.write_text("kind: source\n")
            except (OSError, UnicodeError):  # not every disk holds such a name
                continue
        if text.isprintable():
            line = (
                LID.split("\n", 1)[1]
                .replace("id: lid", f"id: lid-{i}")
                .replace("Lid", json.dumps(text.strip()))
            )
            line = line.replace("first: 1, last: 20", f"first: {i + 50}, last: {i + 50}")
            (folder / f"content/assemblies/lid-{i}.yml").write_text(line)
    git(folder, "add", "-A", "-f")
    git(folder, "commit", "-q", "-m", "A proposal")
    return folder


def printed(result: Result) -> str:
    output = result.stdout_bytes.decode("utf-8")
    assert all(line.isprintable() for line in output.split("\n")), "nothing drives a terminal"
    return output


@pytest.mark.parametrize("sound", [True, False], ids=["sound", "broken"])
@pytest.mark.parametrize("form", ["github", "text"])
def test_a_review_lets_nobody_else_command_the_runner(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, form: str, sound: bool
) -> None:
    page, report = tmp_path / "summary.md", tmp_path / "report.md"
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(page))
    folder = proposal(tmp_path / "p")
    if sound:
        for file in (*folder.glob("content/sources/*.yml"), *folder.glob("content/*.md")):
            if file.name not in ("book.yml", "index.md"):
                file.unlink()
        git(folder, "add", "-A")
        git(folder, "commit", "-q", "-m", "Mended")
    result = run("review", "main", "proposal", "--folder", folder, "--format", form, "--report", report)
    assert result.exit_code == (3 if sound else 1)
    found = obeyed(printed(result))
    ours = r"::(error|warning|notice) (file=content/[^:,]+,line=\d+,col=\d+,)?title=[\w %-]+::"
    assert all(re.match(ours, line) for line in found), found
    assert bool(found) == (form == "github")
    for text in (report.read_text(), *([page.read_text()] if form == "github" else [])):
        assert text.startswith("# Look before you take it in: it touches ")
        assert all(line.isprintable() for line in text.split("\n"))
        assert not re.search(r"(?m)^\s*::|##\[", text)


@pytest.mark.parametrize("name", COMMANDS)
@pytest.mark.parametrize("form", FORMS)
def test_no_form_of_problems_prints_a_command(name: str, form: str) -> None:
    text = COMMANDS[name]
    problem = Problem(Place(f"content/{text}"), Severity.ERROR, "file-place", text, text)
    told = FORMS[form]([problem, problem], 1)
    told.encode("utf-8")
    assert all(line.isprintable() for line in told.split("\n"))
    assert all(line.startswith("::error file=content/") for line in obeyed(told))
    if form in ("json", "gitlab", "sarif"):
        assert text in json.dumps(json.loads(told), ensure_ascii=False) or not text.isprintable()


@pytest.mark.parametrize("command", ["check", "compare", "build"])
def test_other_commands_let_nobody_command_the_runner(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: str
) -> None:
    monkeypatch.setenv("GITHUB_ACTIONS", "true")
    folder = proposal(tmp_path)
    arguments = ["main", "proposal", "--folder", folder] if command == "compare" else [folder]
    result = run(command, *arguments)
    assert obeyed(printed(result)) == obeyed(result.stderr) == []
    assert all(line.isprintable() for line in result.stderr.split("\n"))


def test_a_summary_stays_below_what_the_forge_takes_of_a_step(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    page = tmp_path / "summary.md"
    page.write_text("é" * 524_000)
    monkeypatch.setenv("GITHUB_STEP_SUMMARY", str(page))
    folder = proposal(tmp_path / "p")
    run("review", "main", "proposal", "--folder", folder, "--format", "github")
    assert re.search(r"\n\d+ more lines do not fit here\.\n$", page.read_text())
    run("review", "main", "proposal", "--folder", folder, "--format", "github")
    assert len(page.read_bytes()) <= github.MOST_SUMMARY


def test_what_is_cut_is_counted() -> None:
    text = "".join(f"line {i}\n" for i in range(1000))
    short = github.cut(text, 500)
    kept = short.count("line ")
    assert len(short.encode()) <= 500
    assert short.startswith("line 0\nline 1\n")
    assert f"{1000 - kept} more lines do not fit here." in short
    assert github.cut(text, len(text)) == text
