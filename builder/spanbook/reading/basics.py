"""What records of every kind are made of: where they came from, their evidence, spans as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.reading import yaml
from spanbook.reading.nodes import Node, Step, place_of
from spanbook.reading.problems import Place

# A number of a series as a record has it: the number alone, or as it is stamped.
Typed = int | str


@dataclass(frozen=True, slots=True)
class OtherTitle:
    """What a thing is called in another language, which is named by its tag (BCP 47)."""

    language: str
    title: str


@dataclass(frozen=True, slots=True)
class Around:
    """An end typed as `about 588 ± 12`: one of the numbers from 576 to 600 that the series has; or a year."""

    number: Typed
    off: int


@dataclass(frozen=True, slots=True)
class Beside:
    """The first number of a year typed as `before 588` or `after 588`; or a year itself."""

    side: Literal["before", "after"]
    number: Typed


# A text that is none of these two words is a number as stamped.
End = Typed | tuple[Typed, Typed] | Around | Literal["unknown", "open"]


@dataclass(frozen=True, slots=True)
class Origin:
    """The file a record came from, as it was read.

    Where things stand in it is worked out when somebody asks: most records are never asked, and the places
    of ten thousand take more room than all they say. `links` is where its notes lead, which takes long to
    find and follows from the bytes alone: each with the steps to the text that it stands in.
    """

    path: str
    data: bytes = field(repr=False, compare=False)
    links: tuple[tuple[tuple[Step, ...], str], ...] = field(default=(), repr=False, compare=False)

    @property
    def node(self) -> Node:
        return yaml.read(self.data)

    def place(self, *steps: Step, key: bool = False) -> Place:
        """Where the value at a path stands (its key, with `key`); what is missing, where it would be."""
        return Place(self.path, *place_of(self.node, steps, key=key))


@dataclass(frozen=True, slots=True)
class Evidence:
    """One source or one teardown that a statement names, for it or against; exactly one of the two is set."""

    source: str | None
    teardown: str | None
    at: str | None
    against: bool
    note: str | None


@dataclass(frozen=True, slots=True)
class SeriesSpan:
    """Numbers of one series, ends as typed."""

    series: str
    first: End
    last: End


@dataclass(frozen=True, slots=True)
class SaidSpan(SeriesSpan):
    """A span on the word of evidence: of an assembly, or of a line of its parts list."""

    anchor: str | None
    formerly: tuple[str, ...]
    evidence: tuple[Evidence, ...]
    note: str | None


@dataclass(frozen=True, slots=True, eq=False)
class Record:
    kind: str
    id: str
    origin: Origin
    formerly: tuple[str, ...]
    title: str
    notes: str | None
