"""From a folder to a register and all its problems: reading, linking and rules in one go."""

from __future__ import annotations

import gc
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from spanbook import rules
from spanbook.answers.answers import Answers
from spanbook.answers.applicability import Fits
from spanbook.answers.assumed import Assumed
from spanbook.ground.language import gettext as _
from spanbook.reading import Reading, read_tree
from spanbook.reading.files import Folder, Tree
from spanbook.reading.problems import Problem, in_order
from spanbook.reading.record_cache import Known, known_of
from spanbook.register.link import build
from spanbook.register.model import Register
from spanbook.register.relink import linked
from spanbook.rules import drawings, files, photographs
from spanbook.rules.verdicts import every_error, every_problem


@dataclass(frozen=True, slots=True)
class Checked:
    """`register` holds what could be read; it may be used only where `problems` has no error.

    `fits` keeps what the rules asked of it.
    """

    fits: Fits
    problems: tuple[Problem, ...]

    @property
    def register(self) -> Register:
        return self.fits.register

    def answers(self, read_assumed: Callable[[], Assumed]) -> Answers:
        """What the records answer, by what their community assumes."""
        return Answers(self.register, read_assumed, self.fits)


def content_of(path: Path) -> Path:
    """The content folder of a project, or the folder itself. Raises FileNotFoundError."""
    content = path / "content" if (path / "content").is_dir() else path
    if not content.is_dir():
        said = _("{}: there is no such folder; name the one that has content/ in it")
        raise FileNotFoundError(said.format(path))
    return content


def check_folder(path: Path) -> Checked:
    """Everything in a project or content folder, and everything wrong with it, in order of place."""
    tree, shown_as = tree_of(path)
    with known_of(tree.path) as known:
        return check_tree(tree, shown_as, known)


def check_tree(
    tree: Tree, shown_as: str, known: Known | None = None, like: Register | None = None
) -> Checked:
    """The same of a content folder wherever it is kept; `like` is a register of mostly the same records."""
    with collector_resting():
        read = read_tree(tree, shown_as, known)
        fits = Fits(_register(read, like))
        return check_read(tree, shown_as, read, fits, keep=known is not None)


def check_read(tree: Tree, shown_as: str, read: Reading, fits: Fits, *, keep: bool) -> Checked:
    """The same of what was read and linked already; what the rules find may be kept for the next time."""
    laid = (
        *photographs.find(fits.register, tree, shown_as),
        *drawings.find(fits.register, tree, shown_as),
        *files.find(tree, shown_as),
    )
    run = partial(rules.run, fits)
    ruled = every_problem(read.digest, run) if keep else run()
    return Checked(fits, in_order((*read.problems, *ruled, *laid)))


def open_folder(path: Path, known: Known | None = None, like: Register | None = None) -> Checked:
    """What answers are made from, and only the errors that would make them wrong, which is faster.

    Two folders that are opened with the same `known` share the records that are the same in both; `like` is
    a register of mostly the same records.
    """
    tree, shown_as = tree_of(path)
    if known:
        return open_tree(tree, shown_as, known, like)
    with known_of(tree.path) as kept:
        return open_tree(tree, shown_as, kept, like)


def open_tree(tree: Tree, shown_as: str, known: Known | None = None, like: Register | None = None) -> Checked:
    """The same of a content folder wherever it is kept."""
    with collector_resting():
        read = read_tree(tree, shown_as, known)
        fits = Fits(_register(read, like))
        run = partial(rules.run, fits, errors_only=True)
        ruled = every_error(read.digest, run) if known else run()
        return Checked(fits, in_order((*read.problems, *ruled)))


def _register(read: Reading, like: Register | None) -> Register:
    return linked(read.records, read.unread, like) if like else build(read.records, read.unread)


def tree_of(path: Path) -> tuple[Folder, str]:
    """The content folder of a project, and how problems name it. Raises as `content_of`."""
    content = content_of(path)
    return Folder(content), content.resolve().name


@contextmanager
def collector_resting() -> Iterator[None]:
    """Everything made here is kept, and walking it again and again costs as much as making it."""
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()
