"""Several files as one ZIP."""

from __future__ import annotations

import io
from collections.abc import Iterable
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo


def as_bytes(files: Iterable[tuple[str, Iterable[bytes]]]) -> bytes:
    """Each in pieces, in the order given and with the first day that ZIP knows: the same files give the same
    bytes."""
    out = io.BytesIO()
    with ZipFile(out, "w") as made:
        for name, pieces in files:
            entry = ZipInfo(name)
            entry.compress_type = ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            with made.open(entry, "w") as file:
                for piece in pieces:
                    file.write(piece)
    return out.getvalue()
