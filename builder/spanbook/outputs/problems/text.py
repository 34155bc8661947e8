"""Problems as lines that a person reads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from spanbook.reading.problems import Problem, Severity

_COUNTED = {
    Severity.ERROR: ("error", "errors"),
    Severity.WARNING: ("warning", "warnings"),
    Severity.ADVICE: ("piece of advice", "pieces of advice"),
}


def as_text(problems: Sequence[Problem], records: int) -> str:
    """A line for each problem, then how many there are of each severity."""
    return "\n".join([*map(str, problems), summary(problems, records)])


def summary(problems: Sequence[Problem], records: int) -> str:
    counts = Counter(problem.severity for problem in problems)
    told = [f"{n} {_COUNTED[s][n != 1]}" for s in Severity if (n := counts[s])]
    return f"{records} records: {', '.join(told) if told else 'nothing to complain of'}."
