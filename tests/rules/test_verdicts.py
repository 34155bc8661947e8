"""What the rules found is kept for the very same records, and for nothing else."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from spanbook import rules
from spanbook.answers.applicability import Fits
from spanbook.ground.language import speaking
from spanbook.reading import sealed
from spanbook.reading.problems import Problem
from spanbook.rules.checking import check_folder, open_folder
from tests.support import worlds
from tests.support.untold import Bracketed
from tests.support.worlds.records import LID, act

# An error, and a warning of two acts that say the same of a number.
WORLD = LID.replace("position: body/cover", "position: body"), act("a", "P", "Q R")


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[bool]:
    """How often the rules are asked from now on, and whether for errors alone."""
    found: list[bool] = []
    really = rules.run

    def counted(fits: Fits, *, errors_only: bool = False) -> Iterator[Problem]:
        found.append(errors_only)
        return really(fits, errors_only=errors_only)

    monkeypatch.setattr(rules, "run", counted)
    return found


def test_the_same_records_are_judged_once(tmp_path: Path, asked: list[bool]) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    wrong = open_folder(folder).problems
    assert open_folder(folder).problems == wrong
    assert asked == [True]
    every = check_folder(folder).problems
    assert check_folder(folder).problems == every
    assert asked == [True, False]
    assert [problem.name for problem in every] == ["position-not-a-leaf", "split-unused"]
    assert [problem.name for problem in wrong] == ["position-not-a-leaf"]


def test_whoever_checked_them_need_not_ask_for_the_errors(tmp_path: Path, asked: list[bool]) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    check_folder(folder)
    assert [problem.name for problem in open_folder(folder).problems] == ["position-not-a-leaf"]
    assert asked == [False]


def test_one_letter_makes_others_of_them(tmp_path: Path, asked: list[bool]) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    check_folder(folder)
    lid = folder / "content/assemblies/lid.yml"
    lid.write_text(lid.read_text().replace("position: body", "position: body/cover"))
    assert [problem.name for problem in check_folder(folder).problems] == ["split-unused"]
    lid.rename(folder / "content/assemblies/cap.yml")
    assert "file-name" in {problem.name for problem in check_folder(folder).problems}
    assert asked == [False] * 3


def test_what_could_not_be_read_counts_as_well(tmp_path: Path, asked: list[bool]) -> None:
    """A broken file that may hold the missing record keeps the rules from telling that it is missing."""
    folder = worlds.lay(tmp_path / "world", LID.replace("source: book", "source: letter"))
    assert "reference-unknown" in {problem.name for problem in check_folder(folder).problems}
    (folder / "content/sources/letter.yml").write_text("kind: source\nid: letter\n")
    assert "reference-unknown" not in {problem.name for problem in check_folder(folder).problems}
    assert asked == [False] * 2


def test_each_language_has_its_own(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    english = check_folder(folder).problems
    with speaking("de"):
        german = check_folder(folder).problems
    with speaking("en", Bracketed()):
        others = check_folder(folder).problems
    assert [p.name for p in english] == [p.name for p in german] == [p.name for p in others]
    assert not {p.todo for p in english} & {p.todo for p in german}
    assert not {p.todo for p in english} & {p.todo for p in others}
    assert check_folder(folder).problems == english


def test_another_program_judges_anew(
    tmp_path: Path, asked: list[bool], monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    check_folder(folder)
    monkeypatch.setattr(sealed, "program", lambda: "another program")
    check_folder(folder)
    assert asked == [False] * 2


def test_what_is_damaged_or_cannot_be_kept_is_judged_anew(tmp_path: Path, asked: list[bool]) -> None:
    folder = worlds.lay(tmp_path / "world", *WORLD)
    first = check_folder(folder).problems
    (file,) = (tmp_path / "cache/spanbook/verdicts").iterdir()
    file.write_bytes(file.read_bytes()[:-9])
    assert check_folder(folder).problems == first
    file.unlink()
    file.parent.rmdir()
    file.parent.write_text("no folder")
    assert check_folder(folder).problems == first
    assert asked == [False] * 3


def test_what_rules_asked_is_not_asked_again(tmp_path: Path) -> None:
    checked = check_folder(worlds.lay(tmp_path / "world", LID))
    assert checked.answers(lambda: pytest.fail("nothing depends on it")).fits is checked.fits
