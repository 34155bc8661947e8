"""The files of one sort that records show, beside those that are there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from spanbook.reading.files import Picture, Tree
from spanbook.reading.problems import Place
from spanbook.reading.roles import Role
from spanbook.reading.walk import walk
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Shown:
    """`there` is by the path in the folder; `missing` are names with no file, each where it stands, `unused`
    the files that no record names and no unread one may name."""

    there: Mapping[str, Picture]
    missing: tuple[tuple[Place, str], ...]
    unused: tuple[str, ...]


def shown(register: Register, tree: Tree, folder: str, of_sort: Callable[[str], bool]) -> Shown:
    """What records show of a folder of the content folder; `of_sort` tells which names are of it."""
    there = {one.path.removeprefix(folder): one for one in tree.pictures() if one.path.startswith(folder)}
    named = [
        (record.origin.place(*leaf.steps), leaf.value)
        for record in register.records
        for leaf in walk(record, Role.PICTURE)
        if of_sort(leaf.value)
    ]
    unnamed = sorted(there.keys() - {file for _, file in named})
    return Shown(
        there,
        tuple((place, file) for place, file in named if file not in there),
        tuple(file for file in unnamed if not register.unread.may_name(file)),
    )
