"""Example worlds: a few files in one text, each under a line `# file: PATH`, laid over a sound base.

`# link: PATH -> TARGET` makes a symbolic link, `# picture: PATH` a small sound picture. Surrogate characters
stand for bytes that are not UTF-8.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

from PIL import Image

from spanbook.reading.files import Folder
from spanbook.rules.addresses import dead
from spanbook.rules.checking import Checked, check_tree, content_of
from spanbook.site import permanent

_HERE = Path(__file__).parent
_FILE = re.compile(r"# file: (.+)")
_PICTURE = re.compile(r"# picture: (\S+)")
_LINK = re.compile(r"# link: (\S+) -> (\S+)")


def lay(folder: Path, *worlds: str) -> Path:
    """Write the base and then each world into a folder, later files over earlier ones."""
    for world in (read("base"), *worlds):
        for path, text in _files(world):
            file = folder / path
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(text.encode("utf-8", "surrogateescape"))
        for path, target in _LINK.findall(world):
            (folder / path).symlink_to(target)
        for path in _PICTURE.findall(world):
            (folder / path).parent.mkdir(parents=True, exist_ok=True)
            Image.new("RGB", (4, 3)).save(folder / path)
    return folder


def check(folder: Path, *worlds: str) -> Checked:
    """The base with worlds laid over it, read, checked, and held to an addresses.txt if that is laid too."""
    content = content_of(lay(folder, *worlds))
    checked = check_tree(Folder(content), content.name)  # nothing is kept: no world is read twice
    older = folder / permanent.LIST
    if not older.is_file():
        return checked
    dying = dead(older.read_text(), permanent.LIST, permanent.public(checked.register))
    return replace(checked, problems=(*checked.problems, *dying))


def told(folder: Path, *worlds: str) -> list[tuple[str, int, str]]:
    """The name of each problem, its line, and what was read, in their order."""
    return sorted((p.name, p.place.line, p.read) for p in check(folder, *worlds).problems)


def read(name: str) -> str:
    """A world from a file beside this one."""
    return (_HERE / f"{name}.txt").read_text(encoding="utf-8")


def paths(world: str) -> list[str]:
    links = [path for path, _ in _LINK.findall(world)]
    return [path for path, _ in _files(world)] + links + _PICTURE.findall(world)


def _files(world: str) -> Iterator[tuple[str, str]]:
    """Path and text of each file; a link or a picture is no part of a file."""
    path, lines = None, list[str]()
    for line in world.split("\n"):
        if _LINK.fullmatch(line) or _PICTURE.fullmatch(line):
            continue
        if match := _FILE.fullmatch(line):
            if path:
                yield path, "\n".join(lines) + "\n"
            path, lines = match[1], []
        elif path:
            lines.append(line)
    if path:
        yield path, "\n".join(lines).rstrip("\n") + "\n"
