"""Two project folders or git revisions, read, checked and compared."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path

from spanbook.answers.answers import Answers
from spanbook.answers.diff import compute
from spanbook.answers.diff.model import Comparison, Contradictions
from spanbook.ground.language import gettext as _
from spanbook.mkdocs.asked import assumed_of
from spanbook.reading import git_tree
from spanbook.reading.git import NoRevision, Repository
from spanbook.reading.git_merge import merged
from spanbook.reading.problems import errors
from spanbook.reading.record_cache import Known, known_of
from spanbook.register.model import Register
from spanbook.rules.checking import Checked, collector_resting, open_folder, open_tree
from spanbook.site import permanent
from spanbook.wording.proposal import clash_words


class NotComparable(Exception):  # noqa: N818 - it says what it is
    """One of the two is not there or has errors. The message says which, and what to do."""


def compare(old: str, new: str, project: str | Path = ".", *, merge: bool = False) -> Comparison:
    """What changes for readers from `old` to `new`, each a folder or a git revision of the project.

    With `merge` both are revisions, and `new` is compared as it would be merged into `old`: what `old` got
    since `new` began shows as nothing. Raises NotComparable, also where the two clash, and BuildFailed for
    settings that cannot be read.
    """
    project = Path(project)
    if merge:
        return _compare_merged(project, old, new)
    if not _is_folder(old) and not _is_folder(new):
        return _compare_revisions(project, old, new)
    with known_of(project / "content") as known:
        before = _opened(project, old, known)
        return _compared(project, before, _opened(project, new, known, before.register))


def _compare_revisions(project: Path, old: str, new: str) -> Comparison:
    with known_of(project / "content") as known:
        before = _at(project, old, known)
        found = _compared(project, before, _at(project, new, known, before.register))
    repository = Repository(project)
    touched = git_tree.touched(repository, repository.commit(old), repository.commit(new))
    return replace(found, besides=git_tree.besides(touched))


def _compare_merged(project: Path, old: str, new: str) -> Comparison:
    try:
        with merged(project, old, new) as merge:
            if merge.clashes:
                told = "\n".join(map(clash_words, merge.clashes))
                raise NotComparable(
                    _(
                        "{proposal} cannot be merged into {old}; mend this in {proposal} first:\n{told}"
                    ).format(proposal=new, old=old, told=told)
                )
            tree = git_tree.content_of(merge.repository, merge.tree, new)
            return compare_tree(project, old, new, tree, git_tree.besides(merge.touched))
    except NoRevision as missing:
        raise NotComparable(str(missing)) from None


def compare_tree(
    project: Path, old: str, new: str, tree: git_tree.Revision, besides: tuple[str, ...]
) -> Comparison:
    """What changes from a revision to a tree that was read, which messages call `new`.

    A folder that is called like a revision is never taken for it: a proposal that is laid out here could
    bring one. Raises NotComparable and BuildFailed.
    """
    with known_of(project / "content") as known:
        after = _sound(new, open_tree(tree, "content", known))
        found = _compared(project, _at(project, old, known, after.register), after)
    return replace(found, besides=besides)


def _compared(project: Path, before: Checked, after: Checked) -> Comparison:
    return Before(project, before).compared(after)


@dataclass(frozen=True)
class Before:
    """The records of a project that others are held against. They must be without errors."""

    project: Path
    checked: Checked

    def compared(self, after: Checked, besides: tuple[str, ...] = ()) -> Comparison:
        """What changes for readers from it to another. Raises BuildFailed for settings."""
        with collector_resting():
            addresses = self._addresses, permanent.public(after.register)
            assumed = self._answers.assumed
            found = compute.compare_answers(self._answers, after.answers(lambda: assumed), addresses)
        return replace(found, besides=besides)

    def contradicted(self, after: Checked) -> Contradictions:
        """Only what the records of another contradict and these do not. Raises BuildFailed for settings."""
        with collector_resting():
            assumed = self._answers.assumed
            return compute.contradicted(self._answers, after.answers(lambda: assumed))

    @cached_property
    def _addresses(self) -> list[str]:
        return permanent.public(self.checked.register)

    @cached_property
    def _answers(self) -> Answers:
        return self.checked.answers(lambda: assumed_of(self.project))


def _opened(project: Path, place: str, known: Known, like: Register | None = None) -> Checked:
    if _is_folder(place):
        return _sound(place, open_folder(Path(place), known, like))
    return _at(project, place, known, like)


def _at(project: Path, revision: str, known: Known, like: Register | None = None) -> Checked:
    try:
        tree = git_tree.content_at(project, revision)
    except NoRevision as missing:
        raise NotComparable(
            _("{missing}; give a folder, or a revision of {project}").format(missing=missing, project=project)
        ) from None
    return _sound(revision, open_tree(tree, "content", known, like))


def _sound(place: str, checked: Checked) -> Checked:
    if broken := errors(checked.problems):
        told = "\n".join(map(str, broken[:10]))
        raise NotComparable(
            _("the records of {place} have errors; mend them first:\n{told}").format(place=place, told=told)
        )
    return checked


def _is_folder(place: str) -> bool:
    return bool(place) and Path(place).is_dir()
