"""The demonstration's data by programs that others made: frictionless (MIT; Data Package, datapackage.org)
and SQLite's own checks."""

from __future__ import annotations

import json
import shutil
import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from tests.support.command import PROJECT, run

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def exported(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("data") / "out"
    assert run("export", folder, "--folder", PROJECT).exit_code == 0
    return folder


def test_frictionless_finds_nothing_wrong(exported: Path) -> None:
    """Types, keys, references between tables, sizes and hashes of every table."""
    from frictionless import Package

    package = Package(exported / "datapackage.json")
    report = package.validate()
    assert report.flatten(["title", "fieldName", "note"]) == []
    assert len(report.tasks) == len(list((exported / "csv").iterdir())) > 60


def test_frictionless_finds_what_is_broken(exported: Path, tmp_path: Path) -> None:
    """So that the check above can fail: a row that leads to no record."""
    copy = tmp_path / "copy"
    shutil.copytree(exported, copy)
    told = json.loads((copy / "datapackage.json").read_text())
    for resource in told["resources"]:  # which would be told before anything else
        del resource["hash"], resource["bytes"]
    (copy / "datapackage.json").write_text(json.dumps(told))
    broken = copy / "csv/assembly_serials.csv"
    broken.write_bytes(broken.read_bytes().replace(b"\r\nedge-strainer,", b"\r\nno-strainer,", 1))
    from frictionless import Package

    report = Package(copy / "datapackage.json").validate()
    assert {row[0] for row in report.flatten(["title"])} == {"ForeignKey Error"}


def test_sqlite_finds_nothing_wrong(exported: Path) -> None:
    with closing(sqlite3.connect(exported / "tables.sqlite")) as base:
        assert base.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
        assert base.execute("PRAGMA foreign_key_check").fetchall() == []
        said = "SELECT record FROM found WHERE found MATCH 'metal edge' AND kind = 'assembly'"
        assert ("edge-strainer",) in base.execute(said).fetchall()
        numbers = base.execute("SELECT DISTINCT typeof(number) FROM assembly_parts").fetchall()
        assert numbers == [("text",)]
