"""What is said around the problems of a check: how many there are, thanks, and what does not fit."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked_forms
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.problems import Problem, Severity
from spanbook.wording.grammar import plural

_COUNTED = {
    Severity.ERROR: marked_forms("{} error", "{} errors"),
    Severity.WARNING: marked_forms("{} warning", "{} warnings"),
    Severity.ADVICE: marked_forms("{} piece of advice", "{} pieces of advice"),
}


def title() -> str:
    """What a check is about, as the heading of its report."""
    return _("The records")


def all_records() -> str:
    """The name of a test that fails on none."""
    return _("every record")


def count_words(problems: Sequence[Problem], records: int) -> str:
    """How many records were read, and how many problems of each severity."""
    read = plural(records, "{} record", "{} records")
    return labelled(read, f"{_counted(problems) or _('nothing to complain of')}.")


def _counted(problems: Sequence[Problem]) -> str:
    counts = Counter(problem.severity for problem in problems)
    return ", ".join(plural(n, *_COUNTED[severity]) for severity in Severity if (n := counts[severity]))


def older_words(problems: Sequence[Problem]) -> str | None:
    """What the main branch has already of what is wrong with a proposal; None where it has nothing."""
    if not problems:
        return None
    told = _("Not listed: what the main branch has already ({}); `spanbook check` tells it.").format(
        _counted(problems)
    )
    if any(problem.severity is Severity.ERROR for problem in problems):
        told += " " + _("Until its errors are mended no proposal can be shown.")
    return told


def mended_words(mended: Sequence[Problem], older: Sequence[Problem]) -> str | None:
    """What a proposal mends of the main branch's errors and what it leaves; None where it mends none."""
    if not mended:
        return None
    left = sum(problem.severity is Severity.ERROR for problem in older)
    done = plural(
        len(mended), "It mends an error of the main branch", "It mends {} errors of the main branch"
    )
    remains = plural(left, "one remains", "{} remain") if left else _("none remains")
    return parted(done, f"{remains}.")


def thanks(problems: Sequence[Problem]) -> str:
    """What somebody who proposes records reads first."""
    if any(problem.severity is Severity.ERROR for problem in problems):
        return _(
            "Thank you for what you found. Before it can be shown, something has to be mended: each line "
            "says where, what was read there, and what to do. Ask if a line is not clear; nobody is "
            "expected to know all this."
        )
    return _("Thank you for what you found. Everything could be read.")


def line_words(severity: str, path: str, line: int, read: str, todo: str, name: str) -> str:
    """A problem in a line; its texts come as they are to stand there."""
    told = _("{severity} in {path}, line {line}: {read}. To do: {todo}. ({name})")
    return told.format(severity=severity, path=path, line=line, read=read, todo=todo, name=name)


def place_words(problem: Problem) -> str:
    """Which problem, and where in its file."""
    at = problem.place
    return _("{name} at line {line}, column {column}").format(
        name=problem.name, line=at.line, column=at.column
    )


def more_words(count: int) -> str:
    """That a list of problems ends before all are told."""
    return plural(
        count,
        "{} more does not fit here; `spanbook check` tells it too.",
        "{} more do not fit here; `spanbook check` tells them all.",
    )


def lines_cut(count: int) -> str:
    return plural(count, "{} more line does not fit here.", "{} more lines do not fit here.")
