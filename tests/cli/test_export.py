"""Laying the data down: all of it or some forms, in a folder that is not there yet."""

from __future__ import annotations

from pathlib import Path

from tests.support import worlds
from tests.support.command import BAD, project, run


def test_only_the_forms_that_are_asked_for(tmp_path: Path) -> None:
    folder, out = project(tmp_path / "p"), tmp_path / "out"
    assert run("export", out, "--folder", folder, "--form", "xlsx", "--form", "json").exit_code == 0
    assert sorted(file.name for file in out.iterdir()) == ["records.jsonl.gz", "tables.xlsx"]


def test_a_folder_that_holds_anything_stays_as_it_is(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (tmp_path / "out").mkdir()
    (tmp_path / "out/mine.txt").write_text("mine")
    found = run("export", tmp_path / "out", "--folder", folder)
    assert found.exit_code == 1
    assert "nothing was written" in found.output
    assert "is not empty; name a new folder" in found.output
    assert [file.name for file in (tmp_path / "out").iterdir()] == ["mine.txt"]
    assert sorted(file.name for file in tmp_path.iterdir()) == ["out", "p"]


def test_broken_records_are_told_and_nothing_is_written(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    worlds.lay(folder, BAD)
    found = run("export", tmp_path / "out", "--folder", folder)
    assert found.exit_code == 1
    assert "these records have errors" in found.output
    assert not (tmp_path / "out").exists()


def test_records_without_settings_are_called_by_their_folder(tmp_path: Path) -> None:
    folder = project(tmp_path / "Our Engines")
    (folder / "mkdocs.yml").unlink()
    assert run("export", tmp_path / "out", "--folder", folder, "--form", "csv").exit_code == 0
    assert '"name": "our-engines"' in (tmp_path / "out/datapackage.json").read_text()
