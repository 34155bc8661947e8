"""The records as JSON, one a line, compressed (RFC 8259, RFC 1952)."""

from __future__ import annotations

import gzip
import json
from collections.abc import Iterable, Mapping


def as_bytes(records: Iterable[Mapping[str, object]]) -> bytes:
    lines = (f"{json.dumps(record, ensure_ascii=False)}\n" for record in records)
    # Without a time in its head the same records give the same file.
    return gzip.compress("".join(lines).encode(), mtime=0)
