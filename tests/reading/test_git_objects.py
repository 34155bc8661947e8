"""What a revision holds is asked of git by one process, however much is asked."""

from __future__ import annotations

import subprocess
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from spanbook.reading import git_tree
from spanbook.reading.git import NoRevision, Objects, Repository
from tests.support import worlds
from tests.support.command import LID
from tests.support.repository import git

PICTURES = {f"photographs/p{i}.jpg": bytes([i % 256]) * (i * 40) + b"\n" for i in range(60)}


@pytest.fixture
def project(tmp_path: Path) -> Path:
    worlds.lay(tmp_path, LID)
    (tmp_path / "content/photographs").mkdir()
    for path, data in PICTURES.items():
        (tmp_path / "content" / path).write_bytes(data)
    git(tmp_path, "init", "-q")
    git(tmp_path, "add", "-A")
    git(tmp_path, "commit", "-q", "-m", "Records")
    return tmp_path


@pytest.fixture
def started(monkeypatch: pytest.MonkeyPatch) -> list[subprocess.Popen[bytes]]:
    made: list[subprocess.Popen[bytes]] = []
    real = subprocess.Popen

    def counted(*arguments: Any, **settings: Any) -> subprocess.Popen[bytes]:
        made.append(real(*arguments, **settings))
        return made[-1]

    monkeypatch.setattr(subprocess, "Popen", counted)
    return made


def test_all_photographs_are_read_by_one_git(project: Path, started: list[subprocess.Popen[bytes]]) -> None:
    tree = git_tree.content_at(project, "HEAD")
    before = len(started)
    with ThreadPoolExecutor(4) as pool:
        read = pool.map(partial(tree.read, most=10_000), PICTURES)
        assert dict(zip(PICTURES, read, strict=True)) == PICTURES
    assert len(started) == before + 1
    (asked,) = started[before:]
    assert asked.poll() is None
    del tree, read
    assert asked.poll() == 0  # it ended with what asked it


def test_no_more_is_given_than_may_be(project: Path) -> None:
    tree = git_tree.content_at(project, "HEAD")
    assert tree.read("photographs/p2.jpg", 5) == bytes(5)  # of a larger one only that it is larger
    assert tree.read("photographs/p0.jpg", 2) == b"\n"


def test_what_git_does_not_have_is_told_and_the_next_is_answered(project: Path) -> None:
    objects = Objects(Repository(project))
    with pytest.raises(NoRevision, match="0123456789: git does not have it"):
        objects.read("0123456789")
    name = Repository(project).ask("rev-parse", "HEAD:content/photographs/p3.jpg").decode().strip()
    assert objects.read(name) == PICTURES["photographs/p3.jpg"]


def test_a_git_that_ended_is_told(project: Path, started: list[subprocess.Popen[bytes]]) -> None:
    objects = Objects(Repository(project))
    name = Repository(project).ask("rev-parse", "HEAD:content/photographs/p3.jpg").decode().strip()
    objects.read(name)
    started[-1].kill()
    started[-1].wait()
    with pytest.raises(NoRevision, match=name):
        objects.read(name)
