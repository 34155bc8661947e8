"""How what may be on a machine is told by eye, by what is said first of each."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.this_machine import ThisPosition
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.wording.pieces import Pieces, Ref

TELL = marked("Told by eye")


def told_by_eye(place: ThisPosition) -> Iterator[Pieces]:
    """What it left the works with or may have been given later, each once, where anything is said of it."""
    left = (one.fit.assembly for one in place.left)
    for assembly in dict.fromkeys((*left, *(one.assembly for one in place.changed))):
        if assembly.tell:
            yield Ref(assembly.title, assembly), f"{_(': ')}{assembly.tell[0]}"
