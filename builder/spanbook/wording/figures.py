"""What is said of a drawing or a photograph."""

from __future__ import annotations

from spanbook.reading.records import Figure, Record, Teardown

RENEWED = "A pin in red: renewed whenever it comes off."


def credit_words(figure: Figure, record: Record, *, drawn: bool) -> str:
    """Whose it is: `Drawn by merrin, CC0-1.0`; empty where nobody said.

    Unless it says otherwise a teardown's is by the one who looked, under the record's licence.
    """
    by, licence = figure.made_by, figure.licence
    if isinstance(record, Teardown):
        by, licence = by or record.seen_by, licence or record.licence
    how = "Drawn" if drawn else "Photograph"
    return ", ".join(filter(None, (f"{how} by {by}" if by else "", licence)))
