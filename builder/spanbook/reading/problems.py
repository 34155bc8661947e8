"""What is wrong with a record, as a value: where, what was read, what to do. And the rules that say so."""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import parted

# No-break spaces that belong to a sentence: beside signs, as French sets them, and between thousands.
_SET = re.compile("(?<=«)\u00a0|\u00a0(?=[:;?!%»°])|(?<=\\d)\u00a0(?=\\d{3}(?!\\d))")


class Severity(StrEnum):
    """An error keeps a site from being built; a warning fails a strict check; advice never fails."""

    ERROR = "error"
    WARNING = "warning"
    ADVICE = "advice"


_CALLED = {
    Severity.ERROR: marked("error"),
    Severity.WARNING: marked("warning"),
    Severity.ADVICE: marked("advice"),
}


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where in which file; line and column count from 1."""

    path: str
    line: int = 1
    column: int = 1


@dataclass(frozen=True, slots=True)
class Rule:
    """A law with a name, why it is one, and two examples that the tests run.

    An example is the text of one file or more, each under a line ``# file: PATH``, laid over a small
    sound register. Applied to `bad` the rule finds something; applied to `good` it finds nothing.
    """

    name: str
    severity: Severity
    reason: str
    bad: str
    good: str


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found: the place, what was read there and what to do about it."""

    place: Place
    read: str
    todo: str


@dataclass(frozen=True, slots=True)
class Problem:
    """A finding stamped with the rule it breaks."""

    place: Place
    severity: Severity
    name: str
    read: str
    todo: str

    @classmethod
    def of(cls, rule: Rule, finding: Finding) -> Problem:
        return cls(finding.place, rule.severity, rule.name, finding.read, finding.todo)

    def __str__(self) -> str:
        at = self.place
        said = parted(one_line(self.read), one_line(self.todo))
        return f"{one_line(at.path)}:{at.line}:{at.column}: {_(_CALLED[self.severity])} {self.name}: {said}"


class Problems(Exception):  # noqa: N818 - the name says what it holds
    """Raised where records with errors cannot be used. `problems` holds all of them, not only the first."""

    def __init__(self, problems: Iterable[Problem]) -> None:
        self.problems = tuple(problems)
        super().__init__("\n".join(map(str, self.problems)))


def in_order(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Problems by file, then place, then name: the order of files on a disk never shows."""
    return tuple(sorted(problems, key=lambda p: (p.place, p.name, p.read)))


def errors(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    return tuple(p for p in problems if p.severity is Severity.ERROR)


def one_line(text: str) -> str:
    """A stranger's text on one line, so that it cannot forge another problem or drive a terminal.

    `##[` commands the runners of forges wherever it stands in a line, so it is written out as well. A
    no-break space is shown as one beside a sign; between letters it would be taken for another.
    """
    shown = text if text.isprintable() else _seen(text)
    return shown.replace("##[", "##\\u005b")


def _seen(text: str) -> str:
    own = {found.start() for found in _SET.finditer(text)}
    return "".join(c if c.isprintable() or at in own else _written(c) for at, c in enumerate(text))


def _written(character: str) -> str:
    return f"\\u{ord(character):04x}"
