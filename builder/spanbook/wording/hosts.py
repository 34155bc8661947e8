"""How large a site is, and what common hosts take."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.ground.hosts import HOSTS, Host, Limit, Size
from spanbook.wording.grammar import listed, plural

_MB = 10**6
_COUNTED = {Limit.FILES: "files", Limit.ENTRIES: "files and folders"}


def size_told(size: Size) -> str:
    """The size of a site, and what hosts take, in a line."""
    files = plural(size.files, "{} file", "{:,} files")
    folders = plural(size.folders, "{} folder", "{:,} folders")
    taken = "; ".join(f"{host.name} {_taken(host)}" for host in HOSTS)
    return f"{files} in {folders}, {_bytes(size.total)}. Hosts take: {taken}."


def too_large(size: Size) -> Iterator[str]:
    """For each host that would not take the site, why."""
    for host in HOSTS:
        if past := [_past(limit, size, most) for limit, most in host.past(size)]:
            yield f"{host.name} does not take this site: {listed(past)}."


def _taken(host: Host) -> str:
    return listed([_most(limit, most) for limit, most in host.limits.items()])


def _most(limit: Limit, most: int) -> str:
    match limit:
        case Limit.BYTES:
            return _bytes(most)
        case Limit.LARGEST:
            return f"{_bytes(most)} a file"
        case Limit.FILES | Limit.ENTRIES:
            return f"{most:,} {_COUNTED[limit]}"


def _past(limit: Limit, size: Size, most: int) -> str:
    match limit:
        case Limit.BYTES:
            return f"it has {_bytes(size.total)}, and {_bytes(most)} are taken"
        case Limit.LARGEST:
            return f"its largest file has {_bytes(size.largest)}, and {_bytes(most)} are taken"
        case Limit.FILES | Limit.ENTRIES:
            return f"it has {size.of(limit):,} {_COUNTED[limit]}, and {most:,} are taken"


def _bytes(count: int) -> str:
    """In millions, with one place behind the point where that tells something."""
    return f"{count / _MB:,.1f}".removesuffix(".0") + " MB"
