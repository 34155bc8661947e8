"""The words of the page of the data."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked, marked_forms, pgettext
from spanbook.ground.table import Table
from spanbook.register.credits import Credit
from spanbook.wording.grammar import decimals, listed, plural
from spanbook.wording.pages import PageWords

DATA = PageWords(
    marked("The data"),
    marked(
        "Everything that is recorded here, and what is worked out of it, as files for your own programs, "
        "spreadsheets and archives."
    ),
)
_FORMS = {
    "xlsx": marked(
        "A workbook for spreadsheets, a sheet for each table. A part number 0012 stays 0012 in it."
    ),
    "sqlite": marked(
        "A database (SQLite) with all tables and a full-text index of the records, called found."
    ),
    "zip": marked("All tables as CSV files, with the description of their columns (Data Package)."),
    "jsonl.gz": marked("The records as they were typed, one a line, as JSON."),
    "json": marked("What every table and column means, for programs (Data Package, version 2)."),
}


def forms() -> dict[str, str]:
    """What each form of file is for, by how its name ends."""
    return {ending: _(told) for ending, told in _FORMS.items()}


def table_title(table: Table) -> str:
    """What the rows of a table are called: `Machine: Series`."""
    first, *inside = table.titles
    kind = pgettext("kind", first)  # what is no kind is called alike everywhere
    return _(": ").join((kind if kind != first else _(first), *map(_, inside)))


def rows(count: int) -> str:
    return plural(count, "{} row", "{} rows")


def size_words(count: int) -> str:
    """How large a file is, in decimal units: `1.3 MB`."""
    if count < 1000:
        return plural(count, "{} byte", "{} bytes")
    return decimals(f"{count / 1000:.0f} kB" if count < 1_000_000 else f"{count / 1_000_000:.1f} MB")


def credit_words(credit: Credit) -> str:
    """What somebody did: `looked at 3 machines and made 2 pictures`."""
    did = (
        (credit.machines, marked_forms("looked at {} machine", "looked at {} machines")),
        (
            credit.accounts,
            marked_forms("told how {} assembly comes apart", "told how {} assemblies come apart"),
        ),
        (credit.pictures, marked_forms("made {} picture", "made {} pictures")),
    )
    return listed([plural(count, *forms) for count, forms in did if count])
