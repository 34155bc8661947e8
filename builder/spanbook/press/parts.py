"""A site in parts: the page of one thing, a family of tables, a file beside a page.

While a part is made notes are taken of what is read. A part that was made before from what is still the same
is carried on, and not made again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import NamedTuple, Protocol

from spanbook.outputs.folder.written import Written

Key = tuple[str, str]  # which job, and what of it


class Printed(NamedTuple):
    """A page that was made: `own_path` is where in the content folder the record lies that it is about."""

    address: str
    title: str
    own_path: str | None
    anchors: frozenset[str] | None


class Part(NamedTuple):
    """What pages of many things need of it is `told`; `of` tells the thing that it is of from others.

    `step` is its number among the notes that were taken: of this build, or of the one that it is `carried` on
    from; None where nobody knows what it was made from.
    """

    key: Key
    files: tuple[Written, ...]
    pages: tuple[Printed, ...] = ()
    told: object = None
    of: bytes = b""
    step: int | None = None
    carried: bool = False


class Onto(Protocol):
    """Where files go."""

    def put(self, path: str, data: bytes) -> Written: ...

    def keep(self, files: Iterable[Written]) -> None:
        """What the old site has goes into the new one as well."""


class Made(NamedTuple):
    """What a part is made of."""

    files: tuple[Written, ...]
    pages: tuple[Printed, ...] = ()
    told: object = None


Make = Callable[[], Made]
