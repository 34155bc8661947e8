"""The branches of a repository that hold what the main branch does not."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fnmatch import fnmatchcase
from pathlib import Path

from spanbook.reading.git import Repository

REMOTE, LOCAL = "origin/*", "*"
MOST = 100  # branches that are judged at once, the youngest of them
_FORM = "--format=%(refname)%09%(symref)"


@dataclass(frozen=True, slots=True)
class Branches:
    """The full names of branches, by their short ones; by which patterns, and how many more there are."""

    names: dict[str, str]
    patterns: tuple[str, ...]
    left_off: int


def open_branches(project: Path, main: str, patterns: Sequence[str] = ()) -> Branches:
    """The branches that are not merged into `main` and match one of the patterns, in order of their names.

    Without patterns those of `origin`, or, where nothing was fetched from there, those of the repository
    itself. In a pattern `*` stands for any characters. The main branch is none, wherever it was fetched from.
    Raises NoRevision.
    """
    repository = Repository(project)
    asked = "for-each-ref", "--sort=-committerdate", f"--no-merged={repository.commit(main)}", _FORM
    listed = repository.ask(*asked, "refs/heads", "refs/remotes").decode("utf-8", "surrogateescape")
    lines = (line.split("\t") for line in listed.splitlines())
    short = {_short(name): name for name, leads_to in lines if not leads_to}
    wanted = tuple(patterns) or ((REMOTE,) if _fetched(repository) else (LOCAL,))
    mine = main.removeprefix("refs/heads/").removeprefix("refs/remotes/")
    found = [
        called
        for called, name in short.items()
        if any(fnmatchcase(called, pattern) for pattern in wanted) and not _is(name, called, mine)
    ]
    return Branches({called: short[called] for called in sorted(found[:MOST])}, wanted, len(found[MOST:]))


def _short(name: str) -> str:
    return name.removeprefix("refs/heads/").removeprefix("refs/remotes/")


def _fetched(repository: Repository) -> bool:
    return bool(repository.ask("for-each-ref", "--count=1", "refs/remotes/origin"))


def _is(name: str, called: str, main: str) -> bool:
    """Whether it is the main branch: that itself, or a remote's of the same name."""
    if called == main:
        return True
    own = called.partition("/")[2] if name.startswith("refs/remotes/") else called
    return own in (main, main.partition("/")[2])
