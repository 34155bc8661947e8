"""Accounts of how an assembly comes apart, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from spanbook.reading.basics import Record
from spanbook.reading.numbered import PartUse, Size


@dataclass(frozen=True, slots=True)
class Earlier:
    """A step of the same record without which another cannot be done, and why."""

    step: str
    why: str


@dataclass(frozen=True, slots=True)
class ToolUsed:
    """A tool with its size, and how it was made where none can be bought."""

    what: str
    value: str | None
    unit: str | None
    made: str | None


@dataclass(frozen=True, slots=True)
class Catch:
    """What falls, springs or runs out when a step is done."""

    what: str
    number: str | None
    how: Literal["loose", "spring", "pressure", "hidden", "fluid"] | None
    means: str | None = None


@dataclass(frozen=True, slots=True)
class StripStep:
    """One thing that was done: what came off by it, and what is to be seen to when it goes back."""

    id: str
    do: str
    frees: tuple[PartUse, ...]
    after: tuple[Earlier, ...]
    tools: tuple[ToolUsed, ...]
    catch: tuple[Catch, ...]
    hand: Literal["right", "left"]
    renew: bool
    back: str | None
    sizes: tuple[Size, ...]
    minutes: int | None
    cautions: tuple[str, ...]


@dataclass(frozen=True, slots=True, eq=False)
class StripDown(Record):
    """One account by one person; `title` is empty: it is named by its assembly and who told it."""

    assembly: str
    date: str
    seen_by: str
    serial: str | None
    steps: tuple[StripStep, ...]
    stays: tuple[PartUse, ...]
    licence: str | None
