"""Which names a server answers to: a page from elsewhere that has its own name lead here gets nothing."""

from __future__ import annotations

import ipaddress
import re
from collections.abc import Sequence

_LOOPBACK = frozenset({"localhost", "127.0.0.1", "[::1]"})
_EVERYWHERE = {"", "0.0.0.0", "::"}
_HOST = re.compile(r"(\[[0-9a-f:.]+\]|[^][:/@\s]+)(?::[0-9]{1,5})?")


def parted(address: str) -> tuple[str, int]:
    """Host and port of HOST:PORT; an IPv6 address stands in brackets. Raises ValueError."""
    host, colon, port = address.rpartition(":")
    plain = host[1:-1] if host.startswith("[") and host.endswith("]") else host
    if not (colon and port.isascii() and port.isdigit() and len(port) <= 5 and int(port) < 65536) or (
        ":" in plain and plain == host
    ):
        raise ValueError(f"{address}: an address is HOST:PORT, such as 127.0.0.1:8000 or [::1]:8000")
    return plain, int(port)


def written(host: str) -> str:
    return f"[{host}]" if ":" in host else host


def answers(host: str, asked: Sequence[str]) -> bool:
    """Whether a request with these Host fields is meant for a server that listens at `host`.

    Nobody else can have a name lead to a number, so a server that listens everywhere answers to any number.
    """
    if len(asked) != 1:
        return False
    found = _HOST.fullmatch(asked[0].strip().lower())
    if not found:
        return False
    name = found[1]
    if written(host.lower()) in _LOOPBACK:
        return name in _LOOPBACK
    if host in _EVERYWHERE:
        return name == "localhost" or _is_number(name)
    return name == written(host.lower())


def _is_number(name: str) -> bool:
    try:
        ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    return True
