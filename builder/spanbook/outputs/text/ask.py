"""What is found for a query, as a person reads it in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import AtPosition, Reading
from spanbook.answers.search import Asker
from spanbook.register.model import Register
from spanbook.wording.fits import fit_words
from spanbook.wording.search import (
    MORE,
    NOBODY_KNOWS,
    document_words,
    match_words,
    nothing_words,
    place_words,
    reading_words,
)

INDENT = "  "


def as_text(asker: Asker, query: str) -> str:
    answer = asker.ask(query)
    lines: list[str] = []
    for reading in (*answer.readings, *answer.may_be):
        lines += _reading(asker, reading)
    lines += (match_words(asker.register, match) for match in answer.matches)
    lines += map(document_words, answer.documents)
    if answer.more_matches or answer.more_documents:
        lines.append(MORE)
    if answer.empty:
        lines.append(nothing_words(asker, query))
    return "\n".join(lines)


def _reading(asker: Asker, reading: Reading) -> Iterator[str]:
    yield reading_words(asker.register, reading)
    if reading.issued:
        for place in asker.answers.fits.card(reading).positions:
            yield from _place(asker.register, place)


def _place(register: Register, place: AtPosition) -> Iterator[str]:
    yield INDENT + place_words(register, place)
    yield from (f"{INDENT * 2}{fit.assembly.title}: {fit_words(fit)}" for fit in place.fits)
    if not place.fits:
        yield INDENT * 2 + NOBODY_KNOWS
