"""A digest that tells two states of a file apart, and proves nothing."""

from __future__ import annotations

from hashlib import blake2b

_BYTES = 8


def digest(data: bytes) -> str:
    """Of some bytes, in hexadecimal figures."""
    return blake2b(data, digest_size=_BYTES).hexdigest()
