"""Whatever the system refuses, every command says where and what in a sentence, and nothing is half done."""

from __future__ import annotations

import errno
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from spanbook.outputs import whole_file
from spanbook.outputs.text.failure import about, sentence
from tests.support.command import project
from tests.support.repository import git
from tests.support.trees import tree

# Each command as it would be typed beside the project `p`; `serve` shows such things in its pages instead.
READING = {
    "check": ["check", "p"],
    "ask": ["ask", "--folder", "p", "XA1"],
    "questions": ["questions", "--folder", "p"],
    "convert": ["convert", "--folder", "p", "XA1", "--to", "latest"],
    "compare": ["compare", "p", "p"],
    "build": ["build", "p"],
}
GIT = {
    "check at": ["check", "p", "--at", "HEAD"],
    "compare revisions": ["compare", "--folder", "p", "HEAD", "HEAD"],
    "review": ["review", "--folder", "p", "HEAD", "HEAD"],
}
LETTER = "A letter\ncorrespondence\n" + "\n" * 30  # what is typed when a source is asked for


@pytest.fixture
def place(tmp_path: Path) -> Path:
    folder = project(tmp_path / "p")
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A", "-f")
    git(folder, "commit", "-q", "-m", "A proposal")
    return tmp_path


def spanbook(
    folder: Path, *arguments: str, out: int | None = None, given: str = ""
) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own, without root's right to read and write everything."""
    command = [sys.executable, "-m", "spanbook", *arguments]
    if os.geteuid() == 0:
        if not shutil.which("setpriv"):
            pytest.skip("root may read everything, and setpriv, which takes that right away, is not here")
        command = ["setpriv", "--bounding-set=-dac_override,-dac_read_search", *command]
    done = subprocess.run(
        command,
        cwd=folder,
        stdout=subprocess.PIPE if out is None else out,
        stderr=subprocess.PIPE,
        input=given,
        text=True,
        check=False,
        timeout=120,
    )
    assert "Traceback" not in done.stderr, done.stderr
    return done


UNREADABLE = ["content/assemblies/lid.yml", "content/assemblies", "content", "mkdocs.yml", "."]


@pytest.mark.slow
@pytest.mark.parametrize("path", UNREADABLE)
def test_what_may_not_be_read_is_named(path: str, place: Path) -> None:
    hidden = place / "p" / path
    mode = hidden.stat().st_mode
    hidden.chmod(0)
    try:
        for name, arguments in READING.items():
            if path == "mkdocs.yml" and name not in ("questions", "build"):
                continue  # they do not need it
            done = spanbook(place, *arguments)
            assert done.returncode in (1, 2), (name, done.stdout)
            assert str(Path("p", path)) in done.stderr, (name, done.stderr)
            said = ("no right", "Permission denied", "is not readable")
            assert any(words in done.stderr for words in said), (name, done.stderr)
    finally:
        hidden.chmod(mode)
    assert [entry.name for entry in place.iterdir()] == ["p"]


@pytest.mark.slow
@pytest.mark.parametrize("name", ["start", "new", "build", "review"])
def test_where_nothing_may_be_written_nothing_is_left(name: str, place: Path) -> None:
    (place / "locked").mkdir(mode=0o555)
    folders = [place / "p", *(path for path in (place / "p/content").rglob("") if path.is_dir())]
    for folder in folders:
        folder.chmod(0o555)
    before = tree(place)
    commands = {
        "start": ["start", "locked/new"],
        "new": ["new", "source", "--folder", "p"],
        "build": ["build", "p"],
        "review": ["review", "--folder", "p", "HEAD", "HEAD", "--report", "locked/report.md"],
    }
    given = LETTER
    done = spanbook(place, *commands[name], given=given)
    for folder in folders:
        folder.chmod(0o755)
    assert done.returncode == 1, done.stdout
    assert "no right" in done.stderr
    assert "locked" in done.stderr or "p/" in done.stderr
    assert tree(place) == before


@pytest.mark.slow
@pytest.mark.parametrize("name", [*READING, *GIT, "start", "help", "version"])
def test_output_that_cannot_be_written_is_told(name: str, place: Path) -> None:
    if not Path("/dev/full").exists():
        pytest.skip("this system has no /dev/full")
    more = {"start": ["start", "new"], "help": ["check", "--help"], "version": ["--version"]}
    arguments = {**READING, **GIT, **more}[name]
    full = os.open("/dev/full", os.O_WRONLY)
    try:
        done = spanbook(place, *arguments, out=full)
    finally:
        os.close(full)
    assert done.returncode == 1
    assert "the disk is full" in done.stderr


@pytest.mark.slow
@pytest.mark.parametrize("name", [*READING, *GIT, "start", "new", "serve"])
def test_a_folder_that_is_none(name: str, place: Path) -> None:
    more = {"start": ["start", "p/new"], "new": ["new", "source", "--folder", "p"], "serve": ["serve", "p"]}
    arguments = {**READING, **GIT, **more}[name]
    shutil.rmtree(place / "p")
    (place / "p").write_text("A file")
    done = spanbook(place, *arguments, given=LETTER)
    assert done.returncode == 1, done.stdout
    assert "p" in done.stderr
    assert (place / "p").read_text() == "A file"


@pytest.mark.slow
def test_in_a_folder_that_has_vanished(place: Path) -> None:
    for arguments in ([name, *rest] for name, *rest in (*READING.values(), *GIT.values(), ["serve", "p"])):
        gone = place / "gone"
        gone.mkdir()
        code = "import os, runpy, sys; os.rmdir(os.getcwd()); sys.argv = ['spanbook', *sys.argv[1:]]; "
        code += "runpy.run_module('spanbook', run_name='__main__')"
        done = subprocess.run(
            [sys.executable, "-c", code, *arguments],
            cwd=gone,
            capture_output=True,
            text=True,
            check=False,
            timeout=60,
        )
        assert done.returncode == 1, (arguments, done.stdout)
        assert "Traceback" not in done.stderr, (arguments, done.stderr)
        assert "Error: " in done.stderr, arguments


@pytest.fixture
def full_disk(tmp_path: Path) -> Iterator[Path]:
    """A disk of one page, which is used up."""
    folder = tmp_path / "full"
    folder.mkdir()
    try:
        command = ["mount", "-t", "tmpfs", "-o", "size=4096", "tmpfs", str(folder)]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except FileNotFoundError:
        pytest.skip("a small disk is mounted with `mount`, which is not here")
    if done.returncode:
        pytest.skip(f"a small disk can only be mounted by root: {done.stderr.strip()}")
    (folder / "filler").write_bytes(bytes(4096))
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.slow
def test_on_a_full_disk_no_file_is_left_half_written(place: Path, full_disk: Path) -> None:
    before = tree(full_disk)
    report = full_disk / "report.md"
    done = spanbook(place, *GIT["review"], "--report", str(report))
    assert done.returncode == 1
    assert f"{report}: the disk is full" in done.stderr
    done = spanbook(place, "start", str(full_disk / "new"))
    assert done.returncode == 1
    assert "the disk is full" in done.stderr
    (full_disk / "content/sources").mkdir(parents=True)
    given = LETTER
    done = spanbook(place, "new", "source", "--folder", str(full_disk), given=given)
    assert done.returncode == 1
    assert "the disk is full" in done.stderr
    assert 'title: "A letter"' in done.stderr, "what was typed is lost"
    shutil.rmtree(full_disk / "content")
    assert tree(full_disk) == before


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "a/b.md"
    whole_file.create(file, "one")
    with pytest.raises(FileExistsError):
        whole_file.create(file, "two")
    assert tree(tmp_path) == {"a": None, "a/b.md": b"one"}
    whole_file.replace(file, "three")
    assert tree(tmp_path) == {"a": None, "a/b.md": b"three"}

    def full(descriptor: int) -> None:
        raise OSError(errno.ENOSPC, "full")

    monkeypatch.setattr(os, "fsync", full)
    for write in (whole_file.replace, whole_file.create):
        target = file if write is whole_file.replace else tmp_path / "a/c.md"
        with pytest.raises(OSError, match="full") as raised:
            write(target, "four")
        assert sentence(raised.value) == f"{target}: the disk is full; make room and run it again"
        assert tree(tmp_path) == {"a": None, "a/b.md": b"three"}


def test_a_disk_without_second_names_takes_a_new_file_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refuse(one: object, other: object) -> None:
        raise PermissionError(errno.EPERM, "no links")

    monkeypatch.setattr(os, "link", refuse)
    whole_file.create(tmp_path / "a", "one")
    assert tree(tmp_path) == {"a": b"one"}


def _raised(work: Callable[[], object]) -> OSError:
    with pytest.raises(OSError) as raised:  # noqa: PT011 - which one is what is tested
        work()
    return raised.value


def test_a_sentence_names_the_path_and_drives_no_terminal(tmp_path: Path) -> None:
    missing = tmp_path / "a\x1b[31m\nb"
    said = sentence(_raised(missing.read_bytes))
    assert said == f"{tmp_path}/a\\u001b[31m\\u000ab: it is not there, or no longer"
    renamed = sentence(_raised(lambda: missing.rename(tmp_path / "c")))
    assert renamed.endswith(f" to {tmp_path}/c: it is not there, or no longer")
    assert sentence(FileNotFoundError("p: there is no such folder")) == "p: there is no such folder"
    assert sentence(OSError(errno.EXDEV, "Invalid cross-device link", "a")) == "a: Invalid cross-device link"
    with pytest.raises(OSError, match="full") as raised, about("a"):
        raise OSError(errno.ENOSPC, "full")
    assert sentence(raised.value) == "a: the disk is full; make room and run it again"
