"""From a folder to a register and its problems."""

from __future__ import annotations

import gc
from pathlib import Path

import pytest

from spanbook.reading.record_cache import Known
from spanbook.rules.checking import check_folder, collector_resting, content_of, open_folder
from tests.support import worlds
from tests.support.worlds.records import LID, act


@pytest.mark.parametrize("given", [".", "content"])
def test_a_project_or_its_content_folder_may_be_named(given: str, tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, LID)
    assert content_of(folder / given) == folder / "content"
    for made in (check_folder(folder / given), open_folder(folder / given)):
        assert list(made.register.assemblies) == ["lid"]
        assert made.problems == ()


@pytest.mark.parametrize("given", ["no-such-folder", "content/positions.yml"])
def test_what_is_no_folder_is_said(given: str, tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path)
    with pytest.raises(FileNotFoundError, match=f"{given}: there is no such folder; name the one"):
        content_of(folder / given)


def test_for_answers_only_what_would_make_them_wrong_is_told(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, LID.replace("position: body/cover", "position: body"), act("a", "P", "Q R"))
    assert {problem.name for problem in check_folder(folder).problems} == {
        "position-not-a-leaf",
        "split-unused",
    }
    assert [problem.name for problem in open_folder(folder).problems] == ["position-not-a-leaf"]


def test_with_one_memory_a_record_that_is_the_same_is_one_object(tmp_path: Path) -> None:
    folder, known = worlds.lay(tmp_path, LID), Known()
    once, again = (open_folder(folder, known).register for _ in range(2))
    assert list(once.records) == list(again.records)  # told apart by identity
    assert list(once.records) != list(open_folder(folder).register.records)


@pytest.mark.parametrize("on", [True, False])
def test_the_collector_rests_and_is_left_as_it_was(on: bool) -> None:
    (gc.enable if on else gc.disable)()
    try:
        with collector_resting():
            assert not gc.isenabled()
        assert gc.isenabled() == on
        with pytest.raises(KeyError), collector_resting():
            raise KeyError
        assert gc.isenabled() == on
    finally:
        gc.enable()
