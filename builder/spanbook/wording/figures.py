"""What is said of a drawing or a photograph."""

from __future__ import annotations

from spanbook.answers.pictured import Pictured
from spanbook.reading.records import Assembly, Figure, PartRecord, Record, Sign
from spanbook.wording.signs import shown_words

RENEWED = "A pin in red: renewed whenever it comes off."


def credit_words(figure: Figure, record: Record, *, drawn: bool) -> str:
    """Whose it is: `Drawn by merrin, CC0-1.0`; empty where nobody said."""
    whose = Pictured(figure, record)
    how = "Drawn" if drawn else "Photograph"
    return ", ".join(filter(None, (f"{how} by {whose.made_by}" if whose.made_by else "", whose.licence)))


def sign_there(sign: Sign, record: Record) -> str:
    """What is to be looked at in a spot, and what a record says is seen: `how the lid is held: four nuts`."""
    asks = sign.asks[0].lower() + sign.asks[1:]
    shows = record.signs if isinstance(record, Assembly | PartRecord) else ()
    seen = next((shown_words(one) for one in shows if one.sign == sign.id), "")
    return f"{asks}: {seen}" if seen else asks
