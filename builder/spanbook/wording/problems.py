"""What is said around the problems of a check: how many there are, thanks, and what does not fit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from spanbook.reading.problems import Problem, Severity
from spanbook.wording.grammar import plural

_COUNTED = {
    Severity.ERROR: ("{} error", "{} errors"),
    Severity.WARNING: ("{} warning", "{} warnings"),
    Severity.ADVICE: ("{} piece of advice", "{} pieces of advice"),
}
TITLE = "The records"
ALL_RECORDS = "every record"  # the name of a test that fails on none


def count_words(problems: Sequence[Problem], records: int) -> str:
    """How many records were read, and how many problems of each severity."""
    read = plural(records, "{} record", "{} records")
    return f"{read}: {_counted(problems) or 'nothing to complain of'}."


def _counted(problems: Sequence[Problem]) -> str:
    counts = Counter(problem.severity for problem in problems)
    return ", ".join(plural(n, *_COUNTED[severity]) for severity in Severity if (n := counts[severity]))


def older_words(problems: Sequence[Problem]) -> str | None:
    """What the main branch has already of what is wrong with a proposal; None where it has nothing."""
    if not problems:
        return None
    told = f"Not listed: what the main branch has already ({_counted(problems)}); `spanbook check` tells it."
    if any(problem.severity is Severity.ERROR for problem in problems):
        told += " Until its errors are mended no proposal can be shown."
    return told


def mended_words(mended: Sequence[Problem], older: Sequence[Problem]) -> str | None:
    """What a proposal mends of the main branch's errors and what it leaves; None where it mends none."""
    if not mended:
        return None
    left = sum(problem.severity is Severity.ERROR for problem in older)
    done = plural(len(mended), "It mends an error", "It mends {} errors")
    remains = plural(left, "one remains", "{} remain") if left else "none remains"
    return f"{done} of the main branch; {remains}."


def thanks(problems: Sequence[Problem]) -> str:
    """What somebody who proposes records reads first."""
    if any(problem.severity is Severity.ERROR for problem in problems):
        return (
            "Thank you for what you found. Before it can be shown, something has to be mended: each line "
            "says where, what was read there, and what to do. Ask if a line is not clear; nobody is "
            "expected to know all this."
        )
    return "Thank you for what you found. Everything could be read."


def line_words(severity: str, path: str, line: int, read: str, todo: str, name: str) -> str:
    """A problem in a line; its texts come as they are to stand there."""
    return f"{severity} in {path}, line {line}: {read}. To do: {todo}. ({name})"


def place_words(problem: Problem) -> str:
    """Which problem, and where in its file."""
    return f"{problem.name} at line {problem.place.line}, column {problem.place.column}"


def more_words(count: int) -> str:
    """That a list of problems ends before all are told."""
    return plural(
        count,
        "{} more does not fit here; `spanbook check` tells it too.",
        "{} more do not fit here; `spanbook check` tells them all.",
    )


def lines_cut(count: int) -> str:
    return plural(count, "{} more line does not fit here.", "{} more lines do not fit here.")
