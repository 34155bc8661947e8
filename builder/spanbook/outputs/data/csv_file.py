"""A table as CSV (RFC 4180), UTF-8, the names of its columns in the first line."""

from __future__ import annotations

import csv
import io

from spanbook.ground.table import Table, Type
from spanbook.outputs.data.cells import rows_with_text


def as_bytes(table: Table) -> bytes:
    out = io.StringIO(newline="")
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(column.name for column in table.columns)
    # It writes numbers and texts as they are, and nothing as an empty text.
    writer.writerows(rows_with_text(table, Type.LIST, Type.MAP, Type.YES_NO))
    return out.getvalue().encode()
