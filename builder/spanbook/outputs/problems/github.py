"""Problems as GitHub's workflow commands, and as Markdown for the summary of a run.

A step shows ten annotations of a kind; the summary holds all. In a command `%`, CR and LF are escaped, in a
property `:` and `,` as well, so that a stranger's text is never a command of its own.
"""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.ground.markdown_escape import escaped
from spanbook.outputs.problems.text import summary
from spanbook.reading.problems import Problem, Severity, one_line
from spanbook.rules import RULES

MOST_SHOWN = 10
MOST_SUMMARY = 1024 * 1024 - 1  # bytes: a longer summary is refused
_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "notice"}


def as_commands(problems: Sequence[Problem], records: int) -> str:
    """The first ten problems of each severity as annotations, the worst first, and the count."""
    shown = [p for s in Severity for p in [p for p in problems if p.severity is s][:MOST_SHOWN]]
    return "\n".join([*map(_command, shown), summary(problems, records)])


def _command(problem: Problem) -> str:
    at = problem.place
    properties = (
        f"file={_property(one_line(at.path))},line={at.line},col={at.column},title={_property(problem.name)}"
    )
    message = f"{one_line(problem.read)}; {one_line(problem.todo)}"
    return f"::{_COMMANDS[problem.severity]} {properties}::{_data(message)}"


def _data(text: str) -> str:
    return text.replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def as_summary(
    problems: Sequence[Problem], records: int, limit: int = MOST_SUMMARY, rules: str | None = None
) -> str:
    """All problems as Markdown below `limit` bytes: where, what was read, what to do, and thanks.

    Each leads to its rule on the page of `rules`, where its address is known.
    """
    told = [f"# The records\n\n{_opening(problems)}\n\n{escaped(summary(problems, records))}\n"]
    room = limit - len(told[0].encode()) - 200
    for count, problem in enumerate(problems):
        line = _line(problem, rules)
        room -= len(line.encode()) + 1
        if room < 0:
            told.append(f"\n{len(problems) - count} more do not fit here; `spanbook check` tells them all.")
            break
        told.append(line)
    return "\n".join(told) + "\n"


def cut(text: str, limit: int) -> str:
    """A Markdown text below `limit` bytes: whole lines from its beginning, and how many are left out."""
    if len(text.encode()) <= limit:
        return text
    lines, kept, room = text.splitlines(keepends=True), list[str](), limit - 100
    for line in lines:
        room -= len(line.encode())
        if room < 0:
            break
        kept.append(line)
    more = f"\n{len(lines) - len(kept)} more lines do not fit here.\n"
    return "".join(kept) + more if len(more) < limit else ""


def warning(title: str, text: str) -> str:
    """A line that a run shows above all else."""
    return f"::warning title={_property(title)}::{_data(one_line(text))}"


def _opening(problems: Sequence[Problem]) -> str:
    if any(problem.severity is Severity.ERROR for problem in problems):
        return (
            "Thank you for what you found. Before it can be shown, something has to be mended: each line "
            "says where, what was read there, and what to do. Ask if a line is not clear; nobody is "
            "expected to know all this."
        )
    return "Thank you for what you found. Everything could be read."


def _line(problem: Problem, rules: str | None) -> str:
    at = problem.place
    rule = RULES[problem.name]
    name = f"[{rule.name}]({rules}#{rule.name})" if rules else rule.name
    return (
        f"- **{problem.severity}** in {escaped(one_line(at.path))}, line {at.line}: "
        f"{escaped(one_line(problem.read))}. To do: {escaped(one_line(problem.todo))}. "
        f"({name})"
    )
