"""What is said of a drawing or a photograph."""

from __future__ import annotations

from spanbook.reading.records import Figure

RENEWED = "A pin in red: renewed whenever it comes off."


def credit_words(figure: Figure, *, drawn: bool) -> str:
    """Whose it is: `Drawn by merrin, CC0-1.0`; empty where nobody said."""
    how = "Drawn" if drawn else "Photograph"
    by = f"{how} by {figure.made_by}" if figure.made_by else ""
    return ", ".join(filter(None, (by, figure.licence)))
