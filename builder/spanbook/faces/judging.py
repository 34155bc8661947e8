"""Judging records: whether they can be shown."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from pathlib import Path

from spanbook.ground.language import gettext as _
from spanbook.reading import git_tree
from spanbook.reading.problems import Problem, Rule, Severity, errors
from spanbook.reading.record_cache import known_of
from spanbook.rules import RULES
from spanbook.rules.addresses import dead
from spanbook.rules.checking import Checked, check_folder, check_tree
from spanbook.site import permanent


def check(path: str | Path, *, at: str | None = None) -> Checked:
    """Every problem of a project or content folder, in order of place; with `at`, as of a git revision.

    Raises FileNotFoundError without the folder and NoRevision for a revision that is not there.
    """
    folder = Path(path)
    if at is None:
        return check_folder(folder)
    return _check_tree(folder, git_tree.content_at(folder, at))


def dead_addresses(checked: Checked, older: str, name: str) -> tuple[Problem, ...]:
    """The addresses in an older site's `addresses.txt` that would die: its text, and what to call it.

    None where the records have errors and cannot become a site.
    """
    if errors(checked.problems):
        return ()
    register = checked.register
    now = set(permanent.public(register)) | permanent.on_gone_pages(register, older.split())
    return tuple(dead(older, name, now))


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
        raise LookupError(_("there is no problem named {}").format(name))
    return RULES[name]


def _check_tree(project: Path, tree: git_tree.Revision) -> Checked:
    with known_of(project / "content") as known:
        return check_tree(tree, "content", known)
