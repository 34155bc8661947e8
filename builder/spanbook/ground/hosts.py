"""What common hosts of static sites take: a row a host, each with where that is said.

Hosts change this when they like, so it is told and stops nothing. A GB is taken for 1,000,000,000 bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import Enum, auto


class Limit(Enum):
    """What a host limits: counts, and bytes."""

    FILES = auto()
    ENTRIES = auto()  # files and folders
    BYTES = auto()  # of all files
    LARGEST = auto()  # bytes of one file


@dataclass(frozen=True, slots=True)
class Size:
    """Of a folder: how many files and folders are in it, the bytes of all files and of the largest."""

    files: int
    folders: int
    total: int
    largest: int

    def of(self, limit: Limit) -> int:
        match limit:
            case Limit.FILES:
                return self.files
            case Limit.ENTRIES:
                return self.files + self.folders
            case Limit.BYTES:
                return self.total
            case Limit.LARGEST:
                return self.largest


@dataclass(frozen=True, slots=True)
class Host:
    """What one host takes at the most."""

    name: str
    limits: dict[Limit, int]
    source: str

    def past(self, size: Size) -> Iterator[tuple[Limit, int]]:
        """The limits that a folder is past."""
        return ((limit, most) for limit, most in self.limits.items() if size.of(limit) > most)


HOSTS = (
    Host(
        "Cloudflare Pages (free)",
        {Limit.FILES: 20_000, Limit.LARGEST: 25 * 2**20},
        "developers.cloudflare.com, Pages changelog of 23 January 2026 (files); from memory (a file)",
    ),
    Host("GitHub Pages", {Limit.BYTES: 10**9}, "docs.github.com, GitHub Pages limits"),
    Host(
        "GitLab.com Pages",
        {Limit.BYTES: 10**9, Limit.ENTRIES: 200_000},
        "gitlab.com/gitlab-org/gitlab, issues 405048 and 500273",
    ),
)
