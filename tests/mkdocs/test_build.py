"""The whole command, killed at any moment and run twice at once: the site is always one that was built."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from spanbook.outputs.folder import workshop
from tests.support.command import LID, project
from tests.support.trees import tree

pytestmark = pytest.mark.slow

KILLS = int(os.environ.get("SPANBOOK_KILLS", "24"))
SEED = int(os.environ.get("SPANBOOK_FUZZ_SEED", "1934"))
# As if no system could exchange two folders in one step.
_TWO_RENAMES = "from spanbook.outputs.folder import publish; publish.exchange = lambda one, other: False; "
_RUN = "from spanbook.cli import main; main()"


def begin(folder: Path, way: str = "exchange") -> subprocess.Popen[str]:
    code = _RUN if way == "exchange" else _TWO_RENAMES + _RUN
    return subprocess.Popen(
        [sys.executable, "-c", code, "build", str(folder)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        env={**os.environ, "SOURCE_DATE_EPOCH": "1000000000"},
    )


def write(folder: Path, title: str) -> None:
    (folder / "content/assemblies/lid.yml").write_text(LID.replace("title: Lid", f"title: {title}"))


@pytest.mark.parametrize("way", ["exchange", "two-renames"])
def test_a_build_that_is_killed_leaves_one_of_the_two_sites(way: str, tmp_path: Path) -> None:
    """Seeded; SPANBOOK_KILLS says how often. Every other one is killed near its end, where sites change."""
    chance, folder = random.Random(SEED), project(tmp_path / "p")
    shop = workshop.workshop_of(folder / "site").name
    sites, seconds = {}, 0.0
    for title in ("One", "Two"):
        write(folder, title)
        started = time.monotonic()
        told, _ = begin(folder, way).communicate()
        assert "Built" in told
        seconds, sites[title] = time.monotonic() - started, tree(folder / "site")
    assert sites["One"] != sites["Two"]
    killed = 0
    for number in range(KILLS // 2):
        write(folder, ("One", "Two")[number % 2])
        others = {path: what for path, what in tree(folder).items() if not path.startswith(("site", shop))}
        run = begin(folder, way)
        time.sleep(chance.uniform(0.8 if number % 2 else 0.1, 1.0) * seconds)
        run.send_signal(signal.SIGKILL)
        run.communicate()
        killed += run.returncode == -signal.SIGKILL
        if way == "exchange" or (folder / "site").exists():
            assert tree(folder / "site") in sites.values()
        found = {path: what for path, what in tree(folder).items() if not path.startswith(("site", shop))}
        assert found == others
    assert killed
    last = begin(folder, way)
    last.communicate()
    assert last.returncode == 0
    assert tree(folder / "site") in sites.values()
    assert not (folder / shop).exists()
    print(f"{way}: {killed} of {KILLS // 2} killed")


def test_two_builds_at_once_both_end_well(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    runs = [begin(folder) for _ in range(3)]
    told = [run.communicate()[0] for run in runs]
    assert [run.returncode for run in runs] == [0, 0, 0], told
    assert sum("Another build into" in text for text in told) in (1, 2)
    assert {path.name for path in folder.iterdir()} == {"content", "mkdocs.yml", "site"}
