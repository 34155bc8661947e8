"""Fields as a map names them: `parts.number`, and `found.2.assembly` where a row has several of a list."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches

from spanbook.ground.language import gettext as _
from spanbook.reading.fields import Field, Sort, fields_of
from spanbook.reading.phrases import any_of

Steps = tuple[tuple[str, str], ...]


class NoField(Exception):  # noqa: N818 - it says what there is not
    """What names no field that a cell can fill. The message says which there are."""


@dataclass(frozen=True, slots=True)
class Target:
    """A field of a record: `steps` lead through lists to it, each with the number that tells its entry from
    others of the same row; empty for the only one."""

    path: str
    steps: Steps
    field: Field


def target_of(kind: str, path: str) -> Target:
    """The field of a kind that a path names. Raises NoField."""
    fields, steps = fields_of(kind), list[tuple[str, str]]()
    words = path.split(".")
    while True:
        word = words.pop(0)
        field = next((one for one in fields if one.key == word), None)
        if field is None:
            raise NoField(_instead(kind, path))
        if field.sort is not Sort.GROUPS:
            break
        label = words.pop(0) if words and words[0].isdigit() else ""
        if not words:
            inside = ", ".join(f"{path}.{one.key}" for one in field.fields)
            raise NoField(_("it is a list; name a field in it: {}").format(inside))
        steps.append((word, label))
        fields = field.fields
    if words:
        raise NoField(_instead(kind, path))
    if field.sort in (Sort.TABLE, Sort.PAIRS):
        raise NoField(_("no cell can fill it; add it to the records afterwards"))
    return Target(path, tuple(steps), field)


def paths_of(kind: str) -> Iterator[tuple[str, Field]]:
    """Every field of a kind that a cell can fill, by its path."""
    yield from _paths("", fields_of(kind))


def _paths(above: str, fields: tuple[Field, ...]) -> Iterator[tuple[str, Field]]:
    for field in fields:
        if field.sort is Sort.GROUPS:
            yield from _paths(f"{above}{field.key}.", field.fields)
        elif field.sort not in (Sort.TABLE, Sort.PAIRS):
            yield above + field.key, field


def _instead(kind: str, path: str) -> str:
    paths = [one for one, __ in paths_of(kind)]
    plain = ".".join(word for word in path.split(".") if not word.isdigit())
    close = get_close_matches(plain, paths, n=3, cutoff=0.5)
    tops = dict.fromkeys(one.split(".")[0] for one in paths)
    return (
        _("did you mean {}?").format(any_of(close)) if close else _("use one of {}").format(", ".join(tops))
    )
