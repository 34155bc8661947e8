"""Problems as lines that a person reads."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.reading.problems import Problem
from spanbook.wording.problems import count_words


def as_text(problems: Sequence[Problem], records: int) -> str:
    """A line for each problem, then how many there are of each severity."""
    return "\n".join([*map(str, problems), count_words(problems, records)])
