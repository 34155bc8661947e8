"""A proposal merged into the main branch, as a tree that is never laid out.

The merge is made in a bare repository of its own, which borrows the objects and is gone afterwards: nothing
is written into the project, and neither its settings nor the attributes of anybody's tree choose how files
are merged. A forge, too, merges by git's own rules.
"""

from __future__ import annotations

import os
import re
import shutil
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from enum import Enum
from pathlib import Path
from subprocess import CompletedProcess

from spanbook.ground.language import gettext as _
from spanbook.reading.git import ALTERNATES, NoRevision, Repository, run
from spanbook.reading.git_tree import touched

OLDEST_GIT = (2, 38)  # the first with `merge-tree --write-tree`
# Whose merges they are that nobody ever sees.
_WHO = {
    f"GIT_{role}_{what}": told
    for role in ("AUTHOR", "COMMITTER")
    for what, told in (("NAME", "nobody"), ("EMAIL", "nobody@localhost"), ("DATE", "2000-01-01T00:00:00Z"))
}
# A repository's own attributes go before all that a tree may say: every file is merged by git's own rules.
_ATTRIBUTES = "* merge !conflict-marker-size\n"


class How(Enum):
    """How two sides touch one file, by which of base (1), main (2) and proposal (3) git kept of it."""

    BOTH_CHANGED = "123"
    BOTH_ADDED = "23"
    PROPOSAL_REMOVED = "12"
    MAIN_REMOVED = "13"
    MOVED = ""  # anything else: it takes a renamed file, or a folder in a file's place


@dataclass(frozen=True, slots=True)
class Clash:
    """A file, from the project on, that both touch so that git cannot have both."""

    path: str
    how: How


@dataclass(frozen=True, slots=True)
class Merge:
    """The name of the merged tree, a repository that can read it, and what clashes in it.

    `sides` are the commits that were merged. `touched` are the files by which it differs from the main
    branch: the proposal's own doing.
    """

    repository: Repository
    tree: str
    sides: tuple[str, str]
    clashes: tuple[Clash, ...]
    touched: tuple[str, ...]


@contextmanager
def merged(project: Path, main: str, proposal: str) -> Iterator[Merge]:
    """A revision merged into another; it can be read as long as the context lasts. Raises NoRevision."""
    with merging(project, main) as merges:
        yield merges.of(proposal)


@contextmanager
def merging(project: Path, main: str) -> Iterator[Merges]:
    """A place to merge any number of revisions into one, as long as the context lasts. Raises NoRevision."""
    ours = Repository(project)
    onto = ours.commit(main)
    _require_new_git()
    with tempfile.TemporaryDirectory(prefix="spanbook-merge-") as name:
        bare = Path(name).resolve() / "bare"
        _borrow(ours, bare)
        top = ours.ask("rev-parse", "--show-prefix").decode("utf-8", "surrogateescape").rstrip("\n")
        yield Merges(ours, bare, main, onto, top)


@dataclass(frozen=True, slots=True)
class Merges:
    """Revisions merged into the main branch, each by itself or one after another."""

    _ours: Repository
    _bare: Path
    main: str
    _onto: str
    _top: str

    @property
    def repository(self) -> Repository:
        """It reads all that was merged."""
        return Repository(self._ours.project, self._bare / "objects")

    def of(self, proposal: str) -> Merge:
        """A revision merged into the main branch. Raises NoRevision."""
        theirs = self._ours.commit(proposal)
        tree, clashes = self._merge(
            self._onto,
            theirs,
            _("{proposal} cannot be merged into {main}").format(proposal=proposal, main=self.main),
        )
        touches = touched(self.repository, self._onto, tree)
        return Merge(self.repository, tree, (self._onto, theirs), clashes, touches)

    def after(self, first: Merge, second: Merge) -> Merge:
        """The second merged into the main branch as the first leaves it. Raises NoRevision."""
        onto = self._commit(first)
        tree, clashes = self._merge(onto, second.sides[1], _("they cannot be merged"))
        both = tuple(sorted({*first.touched, *second.touched}))
        return Merge(self.repository, tree, (onto, second.sides[1]), clashes, both)

    def _merge(self, onto: str, theirs: str, failing: str) -> tuple[str, tuple[Clash, ...]]:
        done = self._git("merge-tree", "--write-tree", "-z", "--no-messages", onto, theirs)
        # 1 tells of clashes; the name of the tree comes first all the same.
        if done.returncode not in (0, 1):
            raise NoRevision(f"{failing}: {_said(done)}")
        tree, *lines = done.stdout.decode("utf-8", "surrogateescape").split("\0")
        return tree, _clashes(lines, self._top)

    def _commit(self, merge: Merge) -> str:
        """The commit that a merge would make."""
        parents = (part for side in merge.sides for part in ("-p", side))
        done = self._git("commit-tree", merge.tree, *parents, "-m", "merge")
        if done.returncode:
            raise NoRevision(f"{self.main}: {_said(done)}")
        return done.stdout.decode().strip()

    def _git(self, *arguments: str) -> CompletedProcess[bytes]:
        return run(f"--git-dir={self._bare}", *arguments, environment=_plain())


def _said(done: CompletedProcess[bytes]) -> str:
    return done.stderr.decode("utf-8", "replace").strip()


def _require_new_git() -> None:
    said = run("version").stdout.decode("utf-8", "replace").strip()
    found = re.search(r"(\d+)\.(\d+)", said)
    if not found or (int(found[1]), int(found[2])) < OLDEST_GIT:
        oldest = ".".join(map(str, OLDEST_GIT))
        raise NoRevision(
            _(
                "a proposal is judged as it would be merged, which takes git {oldest} or newer; "
                "this is {said}. `spanbook compare OLD NEW` compares two revisions as they are, "
                "with any git"
            ).format(oldest=oldest, said=said)
        )


def _borrow(ours: Repository, bare: Path) -> None:
    """A bare repository with the objects of ours, in its own way of naming them, and as shallow."""
    form = ours.ask("rev-parse", "--show-object-format").decode().strip()
    done = run(
        *("init", "-q", "--bare", "--template=", f"--object-format={form}", str(bare)), environment=_plain()
    )
    if done.returncode:
        raise NoRevision(f"{bare}: {_said(done)}")
    (bare / "info").mkdir(exist_ok=True)
    (bare / "info/attributes").write_text(_ATTRIBUTES, encoding="ascii")
    (bare / "objects/info/alternates").write_bytes(os.fsencode(_place(ours, "objects")) + b"\n")
    shallow = _place(ours, "shallow")
    if shallow.is_file():
        shutil.copyfile(shallow, bare / "shallow")


def _place(ours: Repository, what: str) -> Path:
    """Where a repository keeps a thing; git tells it from the folder that it is asked in."""
    told = os.fsdecode(ours.ask("rev-parse", "--git-path", what).rstrip(b"\n"))
    return (ours.project / told).resolve()


def _plain() -> dict[str, str]:
    """An environment in which git finds what objects there are, and takes no settings from anybody."""
    kept = {name: v for name, v in os.environ.items() if name == ALTERNATES or not name.startswith("GIT_")}
    nobody = {"GIT_CONFIG_NOSYSTEM": "1", "GIT_CONFIG_GLOBAL": os.devnull, "GIT_ATTR_NOSYSTEM": "1"}
    return {**kept, **nobody, **_WHO, "LC_ALL": "C"}


def _clashes(lines: list[str], top: str) -> tuple[Clash, ...]:
    stages: dict[str, str] = {}
    for line in filter(None, lines):
        about, __, path = line.partition("\t")
        stages[path] = stages.get(path, "") + about[-1]
    known = {how.value: how for how in How}
    return tuple(
        Clash(path.removeprefix(top), known.get(kept, How.MOVED)) for path, kept in sorted(stages.items())
    )
