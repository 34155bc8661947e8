"""A bar for who watches a terminal, and nothing of the sort for a log."""

from __future__ import annotations

import os
import pty
import re
import subprocess
import sys
from pathlib import Path

import pytest

from spanbook.faces.making import build
from tests.support.command import project

pytestmark = pytest.mark.slow

RUN = [sys.executable, "-m", "spanbook", "build"]


def test_a_build_counts_its_pages_up_to_the_last(tmp_path: Path) -> None:
    told: list[tuple[int, int]] = []
    build(project(tmp_path / "p"), step=lambda done, of: told.append((done, of)))
    of = told[-1][1]
    # Before each job it is told again how far it is.
    assert list(dict.fromkeys(told)) == [(done, of) for done in range(of + 1)]
    assert len([*(tmp_path / "p/site").rglob("*.html")]) >= of > 20


def test_who_watches_sees_how_far_it_has_come(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    watched, terminal = pty.openpty()
    environment = {**os.environ, "TERM": "xterm", "COLUMNS": "80"}
    process = subprocess.Popen(
        [*RUN, str(folder)], stdout=subprocess.PIPE, stderr=terminal, env=environment, text=True
    )
    os.close(terminal)
    shown = b""
    while piece := _read(watched):
        shown += piece
    os.close(watched)
    assert process.communicate()[0].startswith("Built ")
    assert process.returncode == 0
    assert re.search(rb"Pages +\[#+-* *\] +\d+%", shown), shown
    assert b"100%" in shown


def _read(watched: int) -> bytes:
    try:
        return os.read(watched, 1000)
    except OSError:  # the other end is closed
        return b""


def test_a_log_gets_no_bar(tmp_path: Path) -> None:
    done = subprocess.run([*RUN, str(project(tmp_path / "p"))], capture_output=True, text=True, check=True)
    assert "Pages" not in done.stderr
    assert "%" not in done.stderr
