"""The program as others install it."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from tests.support.command import PROJECT


@pytest.fixture(scope="session")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The program as a wheel, made from this tree by the pinned backend."""
    folder = tmp_path_factory.mktemp("wheel")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    subprocess.run(command, cwd=PROJECT, check=True, capture_output=True)
    (made,) = folder.glob("*.whl")
    return made
