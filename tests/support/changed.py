"""The demonstration's records, copied and changed."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from tests.support.command import PROJECT


def copied(tmp_path: Path, name: str, change: Callable[[Path], None] = lambda _: None) -> str:
    copy = tmp_path / name
    shutil.copytree(PROJECT / "content", copy / "content")
    change(copy / "content")
    return str(copy)


def narrow(content: Path) -> None:
    file = content / "assemblies/lubrication/edge-strainer.yml"
    file.write_text(file.read_text().replace("[588, 612]", "[588, 600]"))


def split(content: Path) -> None:
    file = content / "supersessions/pack-2240-split.yml"
    file.write_text(file.read_text().replace("quantity: 2}", "quantity: 3}"))


def drop_a_teardown(content: Path) -> None:
    (content / "teardowns/hk-701-osk.yml").unlink()
