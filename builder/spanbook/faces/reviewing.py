"""Reviewing: a proposal judged as it would be merged."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from spanbook.answers.diff.contradictions import Named
from spanbook.answers.diff.model import Comparison
from spanbook.faces.diff import Before, NotComparable
from spanbook.ground.language import gettext as _
from spanbook.mkdocs.asked import site_address
from spanbook.mkdocs.failures import BuildFailed
from spanbook.reading import git_tree
from spanbook.reading.git import NoRevision
from spanbook.reading.git_merge import Clash, Merge, merging
from spanbook.reading.problems import Problem, errors
from spanbook.reading.record_cache import Known, known_of
from spanbook.register.model import Register
from spanbook.rules.checking import Checked, check_tree, open_tree
from spanbook.site.addresses import RULES as RULES_PAGE


@dataclass(frozen=True)
class Review:
    """A proposal judged as it would be merged: its records' problems at once, the rest when it is asked for.

    So the problems can be told even where there is nothing to merge with. Where `clashes` forbid the merge,
    and where there is none, `checked` holds the proposal as it stands by itself. `before` are the problems of
    the old records.
    """

    new: str
    checked: Checked
    before: tuple[Problem, ...]
    clashes: tuple[Clash, ...]
    _old: Before | NoRevision
    _touched: tuple[str, ...] | NoRevision

    @property
    def touched(self) -> tuple[str, ...]:
        """The files that it changes and that are neither records nor photographs. Raises NoRevision."""
        if isinstance(self._touched, NoRevision):
            raise self._touched
        return git_tree.besides(self._touched)

    @property
    def changed(self) -> frozenset[str] | None:
        """All files that it changes, from the project on; None where that is not known."""
        return None if isinstance(self._touched, NoRevision) else frozenset(self._touched)

    @property
    def fresh(self) -> tuple[Problem, ...]:
        """The problems that it brings. An old one is the same wherever in its file it stands by now."""
        return self._sorted[0]

    @property
    def older(self) -> tuple[Problem, ...]:
        """The problems that were there before, and still are."""
        return self._sorted[1]

    @property
    def mended(self) -> tuple[Problem, ...]:
        """The errors that were there before and are no more."""
        return self._sorted[2]

    @property
    def broken(self) -> bool:
        """Whether it has to be mended: it clashes, brings errors, or leaves all of the old ones standing.

        Of records with errors nothing can be shown; a proposal that takes some of them away is welcome.
        """
        fresh, older = errors(self.fresh), errors(self.older)
        return bool(self.clashes or fresh or (older and not self.mended))

    @cached_property
    def _sorted(self) -> tuple[tuple[Problem, ...], ...]:
        old = Counter(map(same, self.before))
        fresh, older = list[Problem](), list[Problem]()
        for problem in self.checked.problems:
            known = old[same(problem)] > 0
            old[same(problem)] -= known
            (older if known else fresh).append(problem)
        # Of several that are the same it does not matter which are gone.
        gone = [problem for problem in errors(self.before) if old[same(problem)] > 0]
        return tuple(fresh), tuple(older), tuple(gone)

    @cached_property
    def comparison(self) -> Comparison | None:
        """What changes for readers; None where it clashes, or records have errors and cannot be shown.

        The old records count too: nothing can be held against what has errors. Raises NoRevision where there
        is no merge, NotComparable where there are no old records, and BuildFailed for settings.
        """
        touched = self.touched
        if self.clashes or errors(self.checked.problems) or errors(self.before):
            return None
        if isinstance(self._old, NoRevision):
            raise NotComparable(_("{}; name a revision that has records").format(self._old))
        return self._old.compared(self.checked, touched)

    @property
    def dying(self) -> tuple[str, ...]:
        """The public addresses of `old` that would not work any more. Raises as `comparison`."""
        return self.comparison.dead if self.comparison else ()


def same(problem: Problem) -> tuple[str, str, str]:
    """What a problem is known by wherever in its file it stands by now."""
    return problem.place.path, problem.name, problem.read


def rules_address(project: str | Path) -> str | None:
    """Where the site of a project explains its rules; None where its settings do not say it."""
    try:
        site = site_address(Path(project))
    except BuildFailed:
        return None
    return f"{site}{RULES_PAGE}" if site else None


def review(project: str | Path, old: str, new: str) -> Review:
    """Judge the revision `new` of a project as it would be merged into `old`.

    Nothing of it is laid out or run. What was merged into `old` since `new` began shows as nothing. Raises
    NoRevision where there is no `new`.
    """
    folder = Path(project)
    with known_of(folder / "content") as known:
        try:
            with merging(folder, old) as merges:
                return Main(folder, old, known).review(new, merges.of(new))
        except NoRevision as missing:
            tree = git_tree.content_at(folder, new)
            return Review(new, check_tree(tree, "content", known), (), (), missing, missing)


@dataclass(frozen=True)
class Main:
    """The main branch of a project, read once: what every proposal is held against."""

    project: Path
    called: str
    known: Known

    def review(self, new: str, merge: Merge) -> Review:
        """A proposal by its merge. Raises NoRevision."""
        if merge.clashes:
            tree = git_tree.content_at(self.project, new)
        else:
            tree = git_tree.content_of(merge.repository, merge.tree, new)
        checked = check_tree(tree, "content", self.known, self._register)
        return Review(new, checked, self.problems, merge.clashes, self.before, merge.touched)

    def opened(self, merge: Merge) -> Checked:
        """The records of a merge that has no clashes, and only their errors."""
        tree = git_tree.content_of(merge.repository, merge.tree, self.called)
        return open_tree(tree, "content", self.known, self._register)

    @cached_property
    def _checked(self) -> Checked | NoRevision:
        try:
            return check_tree(git_tree.content_at(self.project, self.called), "content", self.known)
        except NoRevision as missing:
            return missing

    @property
    def _register(self) -> Register | None:
        return None if isinstance(self._checked, NoRevision) else self._checked.register

    @cached_property
    def named(self) -> Named:
        """What it calls all that it holds."""
        return Named.by(self._register) if self._register else Named()

    @property
    def problems(self) -> tuple[Problem, ...]:
        """None where it has no records yet."""
        return () if isinstance(self._checked, NoRevision) else self._checked.problems

    @cached_property
    def before(self) -> Before | NoRevision:
        found = self._checked
        return found if isinstance(found, NoRevision) else Before(self.project, found)
