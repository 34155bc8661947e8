"""Files of a folder change all at once or not at all, whenever it is killed and whoever writes beside."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from spanbook.editing import FileChange
from spanbook.outputs.folder import NoPlace, edited
from tests.outputs.test_folder import child, die_before, ended, quiet
from tests.support.trees import tree

BEFORE = {"a.yml": b"a", "b/c.yml": b"c", "b/d.yml": b"d", "b/e.md": b"e", "p/q.jpg": b"q"}
AFTER = {"a.yml": b"A", "b/f.yml": b"C", "b/e.md": b"e", "b/c.yml": b"new", "p/q.jpg": b"q", "z/z.yml": b"z"}
CHANGES = (
    FileChange("a.yml", "a.yml", b"a", b"A"),
    FileChange("b/c.yml", "b/f.yml", b"c", b"C"),
    FileChange(None, "b/c.yml", b"", b"new"),
    FileChange("b/d.yml", None, b"d", b""),
    FileChange(None, "z/z.yml", b"", b"z"),
)


def lay(folder: Path) -> Path:
    for name, data in BEFORE.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(data)
    return folder


def held(folder: Path) -> dict[str, object]:
    return {path: what for path, what in tree(folder).items() if what is not None}


@pytest.fixture(params=["exchange", "two-renames"])
def way(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> str:
    if request.param == "two-renames":
        monkeypatch.setattr(edited, "exchange", lambda one, other: False)
    return str(request.param)


@pytest.mark.parametrize("linked", [True, False], ids=["second names", "copies"])
def test_all_that_is_planned_is_done(
    tmp_path: Path, way: str, linked: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not linked:

        def refuse(path: Path, to: Path) -> None:
            raise PermissionError(1, "no second names")

        monkeypatch.setattr(Path, "hardlink_to", refuse)
    folder = lay(tmp_path / "content")
    (folder / "a.yml").chmod(0o600)
    (folder / "link").symlink_to("nowhere")
    edited.edit(folder, CHANGES, quiet)
    assert held(folder) == {**AFTER, "link": "-> nowhere"}
    assert (folder / "a.yml").stat().st_mode & 0o777 == 0o600
    assert [entry.name for entry in tmp_path.iterdir()] == ["content"]


@pytest.mark.parametrize(
    ("path", "data", "told"),
    [
        ("a.yml", b"mine", "changed it meanwhile"),
        ("z/z.yml", b"mine", "made it meanwhile"),
        ("b/f.yml", b"mine", "made it meanwhile"),
    ],
)
def test_what_somebody_else_wrote_is_not_written_over(
    path: str, data: bytes, told: str, tmp_path: Path
) -> None:
    folder = lay(tmp_path / "content")
    (folder / path).parent.mkdir(exist_ok=True)
    (folder / path).write_bytes(data)
    before = tree(folder)
    with pytest.raises(NoPlace, match=told):
        edited.edit(folder, CHANGES, quiet)
    assert tree(folder) == before
    assert [entry.name for entry in tmp_path.iterdir()] == ["content"]


def test_what_comes_in_at_the_last_moment_is_kept(
    tmp_path: Path, way: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = lay(tmp_path / "content")
    swap = edited._swap

    def late(whole: Path, place: Path, old: Path) -> None:
        if not (folder / "late.yml").exists():
            (folder / "late.yml").write_bytes(b"late")
        swap(whole, place, old)

    monkeypatch.setattr(edited, "_swap", late)
    with pytest.raises(NoPlace, match="changed files in it meanwhile"):
        edited.edit(folder, CHANGES, quiet)
    assert held(folder) == {**BEFORE, "late.yml": b"late"}


def test_who_stands_in_the_folder_is_told_to_go_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    folder = lay(tmp_path / "content")
    monkeypatch.chdir(folder / "b")
    with pytest.raises(NoPlace, match="go out of it"):
        edited.edit(folder, CHANGES, quiet)
    assert held(folder) == BEFORE


def until(step: int, folder: Path) -> None:
    die_before(step)
    edited.edit(folder, CHANGES, quiet)


@pytest.mark.slow
def test_killed_before_any_change_of_the_disk_it_leaves_everything_or_nothing(
    tmp_path: Path, way: str
) -> None:
    taken_down = 0
    for step in range(1000):
        place = tmp_path / str(step)
        folder = lay(place / "content")
        end = ended(child(partial(until, step, folder)))
        if not folder.exists():
            taken_down += 1
            edited.mend(folder)
        assert held(folder) in (BEFORE, AFTER)
        if end == 0:
            break
        edited.mend(folder)
        if held(folder) == BEFORE:
            edited.edit(folder, CHANGES, quiet)
            assert [entry.name for entry in place.iterdir()] == ["content"]
        assert held(folder) == AFTER
    assert step > 15, "there are many steps"
    assert held(folder) == AFTER
    assert taken_down == (0 if way == "exchange" else 1)


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Path]:
    folder = tmp_path / "small"
    folder.mkdir()
    try:
        command = ["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", str(folder)]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
    except FileNotFoundError:
        pytest.skip("a small disk is mounted with `mount`, which is not here")
    if done.returncode:
        pytest.skip(f"a small disk can only be mounted by root: {done.stderr.strip()}")
    yield folder
    subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.slow
def test_on_a_full_disk_nothing_changes(small_disk: Path) -> None:
    folder = lay(small_disk / "content")
    free = os.statvfs(small_disk)
    (small_disk / "filler").write_bytes(bytes(free.f_bavail * free.f_frsize))
    large = FileChange("a.yml", "a.yml", b"a", b"A" * 100_000)
    with pytest.raises(OSError, match="No space left"):
        edited.edit(folder, (large, *CHANGES[1:]), quiet)
    assert held(folder) == BEFORE
    assert {entry.name for entry in small_disk.iterdir()} == {"content", "filler"}
