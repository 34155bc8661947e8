"""A repository, asked through git. Nothing of it is laid out, run or written."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

ALTERNATES = "GIT_ALTERNATE_OBJECT_DIRECTORIES"  # where git looks for objects besides


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
            said = done.stderr.decode("utf-8", "replace").strip() or "there is no such revision"
            raise NoRevision(f"{arguments[-1].removesuffix('^{commit}')}: {said}")
        return done.stdout

    def _environment(self) -> dict[str, str] | None:
        if not self.beside:
            return None
        others = os.environ.get(ALTERNATES)
        return {**os.environ, ALTERNATES: os.pathsep.join(filter(None, (f'"{self.beside}"', others)))}

    def commit(self, revision: str) -> str:
        """The commit's own name, which no option or path can be taken for. Raises NoRevision."""
        asked = "rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}"
        return self.ask(*asked).decode().strip()


def run(
    *arguments: str, given: bytes = b"", environment: Mapping[str, str] | None = None
) -> subprocess.CompletedProcess[bytes]:
    """Git itself. Raises NoRevision where there is none."""
    try:
        return subprocess.run(
            ["git", *arguments], input=given, capture_output=True, check=False, env=environment
        )
    except FileNotFoundError:
        raise NoRevision("git is not installed, and revisions are read with it") from None


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
