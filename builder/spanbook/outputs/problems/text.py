"""Problems as lines that a person reads."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from spanbook.reading.problems import Problem, Rule, Severity

_COUNTED = {
    Severity.ERROR: ("error", "errors"),
    Severity.WARNING: ("warning", "warnings"),
    Severity.ADVICE: ("piece of advice", "pieces of advice"),
}
_LONGEST_EXAMPLE = 25


def as_text(problems: Sequence[Problem], records: int) -> str:
    """A line for each problem, then how many there are of each severity."""
    return "\n".join([*map(str, problems), summary(problems, records)])


def summary(problems: Sequence[Problem], records: int) -> str:
    counts = Counter(problem.severity for problem in problems)
    told = [f"{n} {_COUNTED[s][n != 1]}" for s in Severity if (n := counts[s])]
    return f"{records} records: {', '.join(told) if told else 'nothing to complain of'}."


def explanation(rule: Rule) -> str:
    """A rule as a page of its own: what it holds, and an example of each side."""
    return "\n\n".join(
        (
            f"{rule.name} ({rule.severity})",
            rule.reason,
            f"Refused:\n{_example(rule.bad)}",
            f"Accepted:\n{_example(rule.good)}",
        )
    )


def _example(text: str) -> str:
    lines = text.splitlines()
    shown = [line if len(line) <= 100 else f"{line[:97]}..." for line in lines[:_LONGEST_EXAMPLE]]
    more = ["..."] if len(lines) > _LONGEST_EXAMPLE else []
    return "\n".join(f"    {ascii(line)[1:-1] if not line.isprintable() else line}" for line in shown + more)
