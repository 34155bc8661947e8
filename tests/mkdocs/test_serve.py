"""Serving while records change: a change shows, a broken record is told and the old page stays."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from threading import Event
from urllib.error import URLError
from urllib.request import urlopen

import pytest

from tests.support.command import project

PATIENCE = 300  # tenths of a second: what a slow machine may need for a build


def until(condition: Callable[[], bool]) -> bool:
    """Whether a condition comes true before patience ends."""
    pause = Event()
    return any(condition() or pause.wait(0.1) for _ in range(PATIENCE))


@pytest.fixture
def serving(tmp_path: Path) -> Iterator[tuple[Path, str, Path]]:
    """A project folder, the address of its served site, and the file that the command's words go to."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        address = f"127.0.0.1:{free.getsockname()[1]}"
    folder, told = project(tmp_path / "p"), tmp_path / "told.txt"
    command = [sys.executable, "-m", "spanbook", "serve", str(folder), "--address", address]
    with told.open("wb") as out:
        environment = {**os.environ, "PYTHONUNBUFFERED": "1"}
        process = subprocess.Popen(command, stdout=out, stderr=subprocess.STDOUT, env=environment)
        try:
            yield folder, f"http://{address}/", told
        finally:
            process.terminate()
            process.wait()


def page(address: str) -> str:
    try:
        with urlopen(address, timeout=10) as answer:
            return str(answer.read().decode())
    except (URLError, ConnectionError):
        return ""


@pytest.mark.slow
def test_a_change_shows_and_a_broken_record_leaves_the_old_page(serving: tuple[Path, str, Path]) -> None:
    folder, site, told = serving
    lid = folder / "content/assemblies/lid.yml"
    sound = lid.read_text()
    address = f"{site}assemblies/lid/"
    assert until(lambda: '<h1 id="record">Lid</h1>' in page(address)), told.read_text()

    lid.write_text(sound.replace("title: Lid", "title: Better lid"))
    assert until(lambda: "Better lid" in page(address)), told.read_text()

    lid.write_text(sound.replace("title: Lid", "title: [Lid"))
    assert until(lambda: "content/assemblies/lid.yml:3:8: error" in told.read_text()), told.read_text()
    assert "Better lid" in page(address)

    lid.write_text(sound.replace("title: Lid", "title: Best lid"))
    assert until(lambda: "Best lid" in page(address)), told.read_text()
