"""A table as CSV (RFC 4180), UTF-8, the names of its columns in the first line."""

from __future__ import annotations

import csv
import io

from spanbook.ground.table import Table
from spanbook.outputs.data.cells import as_text


def as_bytes(table: Table) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(column.name for column in table.columns)
    writer.writerows(map(as_text, row) for row in table.rows)
    return out.getvalue().encode()
