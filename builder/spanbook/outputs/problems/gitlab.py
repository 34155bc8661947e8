"""Problems as GitLab's Code Quality report: a JSON list, each with a fingerprint that survives moving."""

from __future__ import annotations

import hashlib
from collections import Counter
from collections.abc import Sequence

from spanbook.ground.punctuation import parted
from spanbook.outputs.json_text import json_text
from spanbook.reading.problems import Problem, Severity

_SEVERITIES = {Severity.ERROR: "major", Severity.WARNING: "minor", Severity.ADVICE: "info"}


def as_code_quality(problems: Sequence[Problem], records: int) -> str:
    seen: Counter[tuple[str, str, str]] = Counter()
    listed = []
    for problem in problems:
        subject = (problem.name, problem.place.path, problem.read)
        listed.append(
            {
                "description": parted(problem.read, problem.todo),
                "check_name": problem.name,
                "fingerprint": fingerprint(*subject, str(seen[subject])),
                "severity": _SEVERITIES[problem.severity],
                "location": {"path": problem.place.path, "lines": {"begin": problem.place.line}},
            }
        )
        seen[subject] += 1
    return json_text(listed, indent=1)


def fingerprint(*words: str) -> str:
    """The same for the same words, and for no others."""
    return hashlib.sha256("\0".join(words).encode("utf-8", "surrogatepass")).hexdigest()
