"""Judging records and proposals: whether they can be shown, and what a proposal changes for readers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from spanbook.answers.diff.model import Comparison
from spanbook.faces.diff import compare_revisions
from spanbook.reading import git_tree
from spanbook.reading.problems import Problem, Rule, Severity, errors
from spanbook.reading.record_cache import known_of
from spanbook.rules import RULES
from spanbook.rules.addresses import dead
from spanbook.rules.checking import Checked, check_folder, check_tree
from spanbook.site import permanent


@dataclass(frozen=True)
class Review:
    """A proposal judged: its records' problems at once, the rest when it is asked for.

    So the problems can be told even where there is nothing to compare with.
    """

    project: Path
    old: str
    new: str
    checked: Checked

    @cached_property
    def touched(self) -> tuple[str, ...]:
        """The files that differ and are neither records nor photographs. Raises NoRevision."""
        return git_tree.touched_besides(self.project, self.old, self.new)

    @cached_property
    def comparison(self) -> Comparison | None:
        """What changes for readers; None where the records have errors and cannot be shown.

        Raises NoRevision, NotComparable when the old records have errors, and BuildFailed for settings.
        """
        if errors(self.checked.problems):
            return None
        return compare_revisions(self.project, self.old, self.new)


def check(path: str | Path, *, at: str | None = None) -> Checked:
    """Every problem of a project or content folder, in order of place; with `at`, as of a git revision.

    Raises FileNotFoundError without the folder and NoRevision for a revision that is not there.
    """
    folder = Path(path)
    if at is None:
        return check_folder(folder)
    with known_of(folder / "content") as known:
        return check_tree(git_tree.content_at(folder, at), "content", known)


def dead_addresses(checked: Checked, older: str, name: str) -> tuple[Problem, ...]:
    """The addresses in an older site's `addresses.txt` that would die: its text, and what to call it.

    None where the records have errors and cannot become a site.
    """
    if errors(checked.problems):
        return ()
    return tuple(dead(older, name, set(permanent.public(checked.register))))


def fails(problems: Sequence[Problem], *, strict: bool = False) -> bool:
    """Whether these problems forbid showing the records; with `strict`, warnings do so too."""
    failing = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return any(problem.severity in failing for problem in problems)


def all_rules() -> Mapping[str, Rule]:
    """Every rule that records are held to, by its name."""
    return RULES


def explain(name: str) -> Rule:
    """The rule behind a problem: its reason, a bad and a good example. Raises LookupError."""
    if name not in RULES:
        raise LookupError(f"there is no problem named {name}")
    return RULES[name]


def review(project: str | Path, old: str, new: str) -> Review:
    """Judge the revision `new` of a project and compare it with `old`. Nothing of `new` is laid out or run.

    Raises NoRevision where there is no `new`.
    """
    return Review(Path(project), old, new, check(project, at=new))
