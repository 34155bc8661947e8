"""The words of the page of the data."""

from __future__ import annotations

from spanbook.register.credits import Credit
from spanbook.wording.grammar import listed, plural
from spanbook.wording.pages import PageWords

DATA = PageWords(
    "The data",
    "Everything that is recorded here, and what is worked out of it, as files for your own programs, "
    "spreadsheets and archives.",
)
FORMS = {
    "xlsx": "A workbook for spreadsheets, a sheet for each table. A part number 0012 stays 0012 in it.",
    "sqlite": "A database (SQLite) with all tables and a full-text index of the records, called found.",
    "zip": "All tables as CSV files, with the description of their columns (Data Package).",
    "jsonl.gz": "The records as they were typed, one a line, as JSON.",
    "json": "What every table and column means, for programs (Data Package, version 2).",
}


def rows(count: int) -> str:
    return plural(count, "1 row", "{} rows")


def size_words(count: int) -> str:
    """How large a file is, in decimal units: `1.3 MB`."""
    if count < 1000:
        return plural(count, "1 byte", "{} bytes")
    return f"{count / 1000:.0f} kB" if count < 1_000_000 else f"{count / 1_000_000:.1f} MB"


def credit_words(credit: Credit) -> str:
    """What somebody did: `looked at 3 machines and made 2 pictures`."""
    did = (
        (credit.machines, "looked at {} machine", "looked at {} machines"),
        (credit.accounts, "told how {} assembly comes apart", "told how {} assemblies come apart"),
        (credit.pictures, "made {} picture", "made {} pictures"),
    )
    return listed([plural(count, one, many) for count, one, many in did if count])
