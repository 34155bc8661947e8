"""Photographs and drawings as they were typed, with the points that are shown in them."""

from __future__ import annotations

from dataclasses import dataclass

from spanbook.reading.numbered import PartUse


@dataclass(frozen=True, slots=True)
class Point:
    """A place in thousandths of the upright picture: the part that is there, the sign to look at, words."""

    x: int
    y: int
    number: str | None
    by: str | None
    means: str | None
    sign: str | None
    shows: str | None

    @property
    def part(self) -> PartUse | None:
        """The part, as a line of a list."""
        if self.number is None:
            return None
        return PartUse(self.number, self.by, None, 1, (), None, self.means)


@dataclass(frozen=True, slots=True)
class Figure:
    """`file` is its path below content/photographs/, or content/drawings/; `shows` what an eye sees in it."""

    file: str
    shows: str
    made_by: str | None
    licence: str | None
    points: tuple[Point, ...]
