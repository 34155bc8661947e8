"""How the published forms write the names of what is counted up."""

from __future__ import annotations

from enum import StrEnum


def published(name: StrEnum) -> str:
    """A name as the schemas of answers list it: they were published with spaces where ours has hyphens."""
    return name.replace("-", " ")
