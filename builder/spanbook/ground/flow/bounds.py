"""Between what a network's flows and pressures lie when its sizes are known only between two ends each.

Every figure is asked at corners of the box of unknowns: from the corner to which each unknown pulls when it
is moved alone, one unknown at a time is turned round as long as that brings the figure further; then once
more from the best of all corners that any figure led to. Where ways lie only in rows and side by side each
unknown pulls one way, and the bounds are exact; elsewhere a figure may lie further out, and whoever tells
it says "at least this wide".
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field

# What is asked, by its name. A figure that may be flat is led by another: `guide:NAME` beside NAME.
Figures = Mapping[str, float]
Corner = tuple[bool, ...]  # of each unknown whether it stands at its high end

GUIDE = "guide:"
_ROUNDS = 20
# What brings a figure further by less than this part of it is what a computer loses of it.
_FURTHER = 1e-7


@dataclass(frozen=True, slots=True)
class Unknown:
    """What is known only to lie between two ends, each anywhere whatever the others do."""

    name: str
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Between:
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Box:
    """Figures of everything that the unknowns may be; `figures` takes one value for each unknown."""

    unknowns: tuple[Unknown, ...]
    figures: Callable[[Sequence[float]], Figures]
    _seen: dict[Corner, Figures] = field(default_factory=dict)

    def bounds(self) -> dict[str, Between]:
        """The lowest and the highest of each figure that was found, but for guides. Raises as `figures`
        does.
        """
        pulls = self._pulls()
        told = [name for name in pulls if not name.startswith(GUIDE)]
        guides = {name: GUIDE + name if GUIDE + name in pulls else name for name in told}
        for guide in guides.values():
            up = pulls[guide]
            self._climbed(guide, 1, up)
            self._climbed(guide, -1, tuple(not high for high in up))
        # A figure that is flat where it began may move where another led to.
        return {
            name: Between(self._furthest(guide, -1)[name], self._furthest(guide, 1)[name])
            for name, guide in guides.items()
        }

    def widths(self) -> dict[str, dict[str, float]]:
        """How far each figure moves, from its lowest to its highest, with each unknown moved alone."""
        moved = [
            (self._at_middle(index, False), self._at_middle(index, True))
            for index in range(len(self.unknowns))
        ]
        return {
            name: {
                unknown.name: abs(high[name] - low[name])
                for unknown, (low, high) in zip(self.unknowns, moved, strict=True)
            }
            for name in self.middle()
        }

    def middle(self) -> Figures:
        """The figures with every unknown in the middle."""
        return self.figures([_middle(unknown) for unknown in self.unknowns])

    def _at_middle(self, moved: int, high: bool) -> Figures:
        """All unknowns in their middles but one, at an end."""
        return self.figures(
            [
                (unknown.high if high else unknown.low) if index == moved else _middle(unknown)
                for index, unknown in enumerate(self.unknowns)
            ]
        )

    def _pulls(self) -> dict[str, Corner]:
        """To which end each unknown moves each figure up."""
        moved = [
            (self._at_middle(index, False), self._at_middle(index, True))
            for index in range(len(self.unknowns))
        ]
        return {name: tuple(high[name] >= low[name] for low, high in moved) for name in self.middle()}

    def _at(self, corner: Corner) -> Figures:
        if corner not in self._seen:
            ends = zip(self.unknowns, corner, strict=True)
            self._seen[corner] = self.figures(
                [unknown.high if high else unknown.low for unknown, high in ends]
            )
        return self._seen[corner]

    def _furthest(self, guide: str, way: int) -> Figures:
        best = max(self._seen, key=lambda corner: way * self._seen[corner][guide])
        return self._at(self._climbed(guide, way, best))

    def _climbed(self, guide: str, way: int, corner: Corner) -> Corner:
        """From a corner on, one unknown turned at a time, as long as that brings a figure further."""
        wide = [index for index, unknown in enumerate(self.unknowns) if unknown.low < unknown.high]
        best = way * self._at(corner)[guide]
        for _ in range(_ROUNDS):
            start, began = corner, best
            for index in wide:
                turned = (*start[:index], not start[index], *start[index + 1 :])
                there = way * self._at(turned)[guide]
                if there - best > _FURTHER * abs(best):
                    corner, best = turned, there
            if best == began:
                break
        return corner


def _middle(unknown: Unknown) -> float:
    return (unknown.low + unknown.high) / 2
