"""A repository, asked through git. Nothing of it is laid out, run or written."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass
from datetime import date
from pathlib import Path
from threading import Lock
from weakref import finalize

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked

ALTERNATES = "GIT_ALTERNATE_OBJECT_DIRECTORIES"  # where git looks for objects besides

_NO_GIT = marked("git is not installed, and revisions are read with it")


class NoRevision(Exception):  # noqa: N818 - it says what is missing
    """There is no such revision, or git cannot be asked. The message says which."""


@dataclass(frozen=True, slots=True)
class Repository:
    """The repository that a project lies in; `beside` is a folder with objects that it does not hold."""

    project: Path
    beside: Path | None = None

    def ask(self, *arguments: str, given: bytes = b"") -> bytes:
        """What git answers. Raises NoRevision."""
        done = run("-C", str(self.project), *arguments, given=given, environment=self._environment())
        if done.returncode:
            said = done.stderr.decode("utf-8", "replace").strip() or _("there is no such revision")
            raise NoRevision(f"{arguments[-1].removesuffix('^{commit}')}: {said}")
        return done.stdout

    def answering(self, *arguments: str) -> subprocess.Popen[bytes]:
        """A git that answers what is written to it. Raises NoRevision where there is none."""
        try:
            return subprocess.Popen(
                ["git", "-C", str(self.project), *arguments],
                stdin=subprocess.PIPE,
                stdout=subprocess.PIPE,
                stderr=subprocess.DEVNULL,
                env=self._environment(),
            )
        except FileNotFoundError:
            raise NoRevision(_(_NO_GIT)) from None

    def _environment(self) -> dict[str, str] | None:
        if not self.beside:
            return None
        others = os.environ.get(ALTERNATES)
        return {**os.environ, ALTERNATES: os.pathsep.join(filter(None, (f'"{self.beside}"', others)))}

    def commit(self, revision: str) -> str:
        """The commit's own name, which no option or path can be taken for. Raises NoRevision."""
        asked = "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}"
        return self.ask(*asked).decode().strip()


class Objects:
    """The objects of a repository, by git's names for them, from one git that answers while this lives.

    Several threads may ask at once.
    """

    def __init__(self, repository: Repository) -> None:
        self._repository = repository
        self._one_at_a_time = Lock()
        self._git: subprocess.Popen[bytes] | None = None

    def read(self, name: str) -> bytes:
        """All bytes of an object. Raises NoRevision where git does not have it whole."""
        with self._one_at_a_time:
            self._git = self._git or self._started()
            asked, told = self._git.stdin, self._git.stdout
            assert asked  # for the type checker: both are pipes
            assert told
            try:
                asked.write(f"{name}\n".encode())
                asked.flush()
            except BrokenPipeError:
                raise NoRevision(_("{}: git stopped answering").format(name)) from None
            # Its name, its sort, its size; for one that is not there its name and that.
            about = told.readline().split()
            size = int(about[2]) if len(about) == 3 else -1
            data = told.read(size + 1)
            if len(data) <= size or size < 0:
                raise NoRevision(_("{}: git does not have it").format(name))
            return data[:-1]

    def _started(self) -> subprocess.Popen[bytes]:
        git = self._repository.answering("cat-file", "--batch")
        finalize(self, _end, git)
        return git


def _end(git: subprocess.Popen[bytes]) -> None:
    """At the end of what it is asked git ends by itself."""
    for pipe in filter(None, (git.stdin, git.stdout)):
        with suppress(BrokenPipeError):
            pipe.close()
    git.wait()


def run(
    *arguments: str, given: bytes = b"", environment: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    """Git itself. Raises NoRevision where there is none."""
    try:
        return subprocess.run(
            ["git", *arguments], input=given, capture_output=True, check=False, env=environment
        )
    except FileNotFoundError:
        raise NoRevision(_(_NO_GIT)) from None


def last_changed(folder: Path) -> date | None:
    """The day of the newest commit that changed a folder; None outside a repository, or without git."""
    try:
        said = Repository(folder).ask("log", "-1", "--format=%cs", "--", ".").decode().strip()
    except NoRevision:
        return None
    return date.fromisoformat(said) if said else None


def days_of(folder: Path) -> dict[str, str]:
    """The day of the newest commit that changed each file of a folder, by its path there; none without git.

    In one walk over the history: a day is written as 2026-11-26.
    """
    asked = "-c", "core.quotePath=false", "log", "--format=%x01%cs", "--name-only", "--relative", "--", "."
    try:
        told = Repository(folder).ask(*asked).decode("utf-8", "surrogateescape")
    except NoRevision:
        return {}
    found: dict[str, str] = {}
    for commit in told.split("\x01")[1:]:
        day, *paths = filter(None, commit.split("\n"))
        for path in paths:
            found.setdefault(path, day)
    return found
