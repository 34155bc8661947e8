"""Problems as GitHub's workflow commands, and as Markdown for the summary of a run.

A step shows ten annotations of a kind; the summary holds all. In a command `%`, CR and LF are escaped, in a
property `:` and `,` as well, so that a stranger's text is never a command of its own.
"""

from __future__ import annotations

from collections.abc import Container, Sequence

from spanbook.ground.markdown_escape import escaped
from spanbook.ground.punctuation import parted
from spanbook.reading.problems import Problem, Severity, one_line
from spanbook.wording.problems import count_words, line_words, lines_cut, more_words, thanks
from spanbook.wording.problems import title as heading
from spanbook.wording.rules import severity_words

MOST_SHOWN = 10
MOST_SUMMARY = 1024 * 1024 - 1  # bytes: a longer summary is refused
_COMMANDS = {Severity.ERROR: "error", Severity.WARNING: "warning", Severity.ADVICE: "notice"}


def as_commands(problems: Sequence[Problem], records: int, files: Container[str] | None = None) -> str:
    """The first ten problems of each severity as annotations, the worst first, and the count.

    With `files` only those in these files; a forge shows the others nowhere, so each is told in a line.
    """
    noted = [p for p in problems if files is None or p.place.path in files]
    shown = [p for s in Severity for p in [p for p in noted if p.severity is s][:MOST_SHOWN]]
    others = [] if files is None else [str(p) for p in problems if p.place.path not in files]
    return "\n".join([*map(_command, shown), *others, count_words(problems, records)])


def _command(problem: Problem) -> str:
    at = problem.place
    properties = (
        f"file={_property(one_line(at.path))},line={at.line},col={at.column},title={_property(problem.name)}"
    )
    message = parted(one_line(problem.read), one_line(problem.todo))
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
    told = [f"# {heading()}\n\n{thanks(problems)}\n\n{escaped(count_words(problems, records))}\n"]
    room = limit - len(told[0].encode()) - 200
    for count, problem in enumerate(problems):
        line = _line(problem, rules)
        room -= len(line.encode()) + 1
        if room < 0:
            told.append(f"\n{more_words(len(problems) - count)}")
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
    more = f"\n{lines_cut(len(lines) - len(kept))}\n"
    return "".join(kept) + more if len(more) < limit else ""


def warning(title: str, text: str) -> str:
    """A line that a run shows above all else."""
    return f"::warning title={_property(title)}::{_data(one_line(text))}"


def error(title: str, text: str) -> str:
    """The same of what fails the run."""
    return f"::error title={_property(title)}::{_data(one_line(text))}"


def _line(problem: Problem, rules: str | None) -> str:
    at = problem.place
    name = f"[{problem.name}]({rules}#{problem.name})" if rules else problem.name
    told = (problem.read, problem.todo)
    path, read, todo = (escaped(one_line(text)) for text in (at.path, *told))
    return f"- {line_words(f'**{severity_words(problem.severity)}**', path, at.line, read, todo, name)}"
