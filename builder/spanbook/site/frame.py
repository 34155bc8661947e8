"""What is around a page: not ours to know, but what the pages' style must be told of it."""

from __future__ import annotations

from dataclasses import dataclass

# One rem in every style sheet of ours, in CSS pixels.
REM = 20


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame's own style sheet, how it says that a page is dark, and how large it makes a rem.

    `dark` pairs the media with the selector under which the dark colours hold; `rem` is in CSS pixels.
    `scripts` are its own, by the addresses that its pages ask for.
    """

    style: str
    dark: tuple[tuple[str, str], ...]
    rem: int = REM
    scripts: tuple[tuple[str, str], ...] = ()
