"""One look through a new site says what a look for each thing would, and an old one goes without a trace."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from spanbook.ground.changes import Changes
from spanbook.outputs.folder import mark
from spanbook.outputs.folder.changes import settle
from spanbook.outputs.folder.removal import remove
from spanbook.outputs.folder.state import state_of


def lay(folder: Path, files: dict[str, str]) -> Path:
    for name, text in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)
    return folder


@pytest.fixture
def old(tmp_path: Path) -> Path:
    files = {"a.html": "1", "b/c.html": "2", "d": "3", "e/f": "4", "e/g/h": "5", "same/i": "6"}
    mark.put(lay(tmp_path / "old", files))
    return tmp_path / "old"


@pytest.fixture
def fresh(tmp_path: Path) -> Path:
    files = {"a.html": "other", "b/c.html": "2", "d/now-a-folder": "3", "e": "now a file", "same/i": "6"}
    return lay(tmp_path / "fresh", files | {"new/j.html": "7", "ü": "8", ".DS_Store": "9"})


def test_what_is_other_than_before_is_told_also_where_a_file_became_a_folder(fresh: Path, old: Path) -> None:
    assert settle(fresh, old).changes == Changes(
        new=(".DS_Store", "d/now-a-folder", "e", "new/j.html", "ü"),
        changed=("a.html",),
        gone=("d", "e/f", "e/g/h"),
    )
    assert settle(fresh, fresh.parent / "none").changes.new == tuple(
        sorted(
            str(one.relative_to(fresh)) for one in fresh.rglob("*") if one.is_file() and one.name != mark.NAME
        )
    )


def test_what_is_the_same_stays_the_file_that_it_was_and_is_what_the_state_tells_of(
    fresh: Path, old: Path
) -> None:
    made = settle(fresh, old)
    assert {name for name in ("a.html", "b/c.html", "same/i") if (fresh / name).samefile(old / name)} == {
        "b/c.html",
        "same/i",
    }
    assert made.state == state_of(fresh)
    for changed in (lambda: (fresh / "a.html").write_text("x"), lambda: (fresh / "k").mkdir()):
        before = state_of(fresh)
        changed()
        assert state_of(fresh) != before


def test_the_mark_is_the_one_that_a_look_of_its_own_would_give(fresh: Path, old: Path) -> None:
    settle(fresh, old)
    by_look = (fresh / mark.NAME).read_bytes()
    assert not mark.strangers(fresh)
    mark.put(fresh)
    assert (fresh / mark.NAME).read_bytes() == by_look
    (fresh / "ü/").with_name("mine").write_text("mine")
    assert mark.strangers(fresh) == ("mine",)


def test_a_folder_without_anything_has_a_mark_that_is_read(tmp_path: Path) -> None:
    mark.put(tmp_path)
    assert mark.is_on(tmp_path)
    assert mark.strangers(tmp_path) == ()


def test_a_link_goes_and_what_it_leads_to_stays(tmp_path: Path, old: Path) -> None:
    mine = lay(tmp_path / "mine", {"letters/x": "mine"})
    (old / "b/link").symlink_to(mine / "letters")
    (old / "b/dead").symlink_to("nowhere")
    remove(old)
    assert not old.exists()
    assert (mine / "letters/x").read_text() == "mine"


def test_what_cannot_be_removed_is_told_with_its_place(old: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    really = os.unlink

    def refuse(path: str, **within: int) -> None:
        if path == "h":
            raise PermissionError(1, "no right", path)
        really(path, **within)

    monkeypatch.setattr(os, "unlink", refuse)
    with pytest.raises(PermissionError) as refused:
        remove(old)
    assert refused.value.filename == str(old / "e/g/h")
