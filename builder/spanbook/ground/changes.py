"""What of a site is other than before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Changes:
    """Files by their paths in the site: those that were not there, are others now, and are there no more."""

    new: tuple[str, ...] = ()
    changed: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()


def pages_in(paths: Iterable[str]) -> int:
    """How many of some files are pages."""
    return sum(path.endswith(".html") for path in paths)
