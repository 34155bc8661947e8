"""Circuits, and the ways that a medium takes through them and through assemblies, as they were typed."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from spanbook.reading.basics import Evidence, OtherTitle, Record

Cleans = Literal["coarse", "fine"]
Medium = Literal["oil", "water", "fuel", "air", "gas", "current"]
Through = Literal[
    "pipe",
    "jet",
    "gap",
    "element",
    "strainer",
    "packing",
    "clearance",
    "cooler",
    "pump",
    "relief",
    "check",
    "cock",
    "plug",
    "joint",
    "battery",
    "winding",
    "contact",
]


@dataclass(frozen=True, slots=True)
class WaySize:
    """What is known of a way, as it was typed: `value`, and its upper end `to`, in `unit`."""

    what: str
    value: str
    to: str | None
    unit: str


@dataclass(frozen=True, slots=True)
class Way:
    """A way that something takes from one port or place to another, and through what."""

    id: str
    title: str | None
    start: str = field(metadata={"key": "from"})  # Python keeps `from` for itself
    end: str = field(metadata={"key": "to"})
    through: Through
    number: str | None
    by: str | None
    cleans: Cleans | None
    serves: bool
    sizes: tuple[WaySize, ...]
    evidence: tuple[Evidence, ...]
    note: str | None
    means: str | None = None


@dataclass(frozen=True, slots=True)
class CircuitPlace:
    """What positions hang between; `open` is open to the air, or earthed."""

    id: str
    title: str
    open: bool
    gauge: bool


@dataclass(frozen=True, slots=True)
class Port:
    """One opening of a position, and the place that it leads to."""

    position: str
    port: str
    place: str


@dataclass(frozen=True, slots=True)
class CircuitState:
    """How it runs: `warmth` in degrees Celsius, `speed` in turns a minute."""

    id: str
    title: str
    warmth: int | None
    speed: int | None


@dataclass(frozen=True, slots=True, eq=False)
class Circuit(Record):
    titles: tuple[OtherTitle, ...]
    machine: str
    medium: Medium
    grade: str | None
    places: tuple[CircuitPlace, ...]
    ports: tuple[Port, ...]
    ways: tuple[Way, ...]
    states: tuple[CircuitState, ...]
    evidence: tuple[Evidence, ...]
