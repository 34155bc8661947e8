"""The records as JSON, one a line, compressed (RFC 8259, RFC 1952)."""

from __future__ import annotations

import gzip
import json
from collections.abc import Iterable, Mapping


def line_of(record: Mapping[str, object]) -> str:
    return f"{json.dumps(record, ensure_ascii=False)}\n"


def as_bytes(lines: Iterable[str]) -> bytes:
    # Without a time in its head the same records give the same file.
    return gzip.compress("".join(lines).encode(), mtime=0)
