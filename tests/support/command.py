"""A small project and the command run on it."""

from __future__ import annotations

from pathlib import Path

from click.testing import CliRunner, Result

from spanbook.cli import main
from tests.support import worlds

PROJECT = Path(__file__).parents[2]
LID = """\
# file: content/assemblies/lid.yml
kind: assembly
id: lid
title: Lid
position: body/cover
serials:
- {series: xa, first: 1, last: 20}
"""
SEEN = """\
# file: content/teardowns/xa-30-merrin.yml
kind: teardown
id: xa-30-merrin
date: 2024-05-11
seen-by: merrin
serial: XA 30
condition: untouched
found:
- {position: body/cover, assembly: lid}
"""
MOVED = LID.replace("lid.yml", "cover-plate.yml").replace("id: lid", "id: cover-plate\nformerly: [lid]")
BAD = LID.replace("first: 1", "first: one")
CONFIG = "site_name: X\ntheme: {name: material, font: false}\nplugins: [spanbook]\nnav: [index.md]\n"
CONFIG += "docs_dir: content\nvalidation: {links: {anchors: warn}}\n"
# The other frame has ten thousand icons, which every build looks through.
IN_OUR_FRAME = CONFIG.replace("name: material, font: false", "name: spanbook")


def run(*arguments: str | Path, typed: str | None = None) -> Result:
    return CliRunner().invoke(main, [str(argument) for argument in arguments], input=typed)


def built(folder: Path) -> Path:
    """The small project with its site."""
    assert run("build", project(folder)).exit_code == 0
    return folder


def lid_moved(folder: Path) -> Path:
    """The small project after its lid has got another id."""
    (folder / "content/assemblies/lid.yml").unlink()
    worlds.lay(folder, MOVED)
    (folder / "content/index.md").write_text("# Home\n")
    return folder


def project(folder: Path, *more: str) -> Path:
    worlds.lay(folder, LID, *more)
    (folder / "mkdocs.yml").write_text(CONFIG)
    (folder / "content/index.md").write_text("# Home\n\n[The lid](assemblies/lid.md#span-xa)\n")
    return folder
