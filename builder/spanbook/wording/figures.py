"""What is said of a drawing or a photograph."""

from __future__ import annotations

from spanbook.answers.pictured import Pictured
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.reading.records import Assembly, Figure, PartRecord, Record, Sign
from spanbook.wording.grammar import inside
from spanbook.wording.signs import shown_words


def renewed() -> str:
    """What a red pin means."""
    return _("A pin in red: renewed whenever it comes off.")


def credit_words(figure: Figure, record: Record, *, drawn: bool) -> str:
    """Whose it is: `Drawn by merrin, CC0-1.0`; empty where nobody said."""
    whose = Pictured(figure, record)
    told = _("Drawn by {}") if drawn else _("Photograph by {}")
    made_by = told.format(whose.made_by) if whose.made_by else ""
    return ", ".join(filter(None, (made_by, whose.licence)))


def sign_there(sign: Sign, record: Record) -> str:
    """What is to be looked at in a spot, and what a record says is seen: `how the lid is held: four nuts`."""
    asks = inside(sign.asks)
    shows = record.signs if isinstance(record, Assembly | PartRecord) else ()
    seen = next((shown_words(one) for one in shows if one.sign == sign.id), "")
    return labelled(asks, seen) if seen else asks
