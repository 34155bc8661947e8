"""Answers in words that a person reads in a terminal."""

from __future__ import annotations

from collections.abc import Iterator

from spanbook.answers.applicability import AtPosition, Reading
from spanbook.answers.search import Asker, Match, nearest_run, suggestions
from spanbook.wording.fits import COVERS, STATES
from spanbook.wording.spans import fitted_words, numbers_words, span_words
from spanbook.wording.years import years_words

INDENT = "  "


def as_text(asker: Asker, query: str) -> str:
    answer = asker.ask(query)
    lines: list[str] = []
    for reading in (*answer.readings, *answer.may_be):
        lines += _reading(asker, reading)
    lines += (_match(asker, match) for match in answer.matches)
    lines += (f"{document.title} ({document.sort}): {document.address}" for document in answer.documents)
    if answer.more_matches or answer.more_documents:
        lines.append("More exist: type more.")
    if answer.empty:
        tried = "; ".join(suggestions(asker, query))
        lines.append(f"Nothing found for “{query}”. Try {tried}.")
    return "\n".join(lines)


def _reading(asker: Asker, reading: Reading) -> Iterator[str]:
    series = reading.series
    shown, machine = series.stamp.show(reading.number), asker.register.machines[series.machine].title
    if not reading.issued:
        run = nearest_run(series, reading.number)
        near = numbers_words(run.first, run.last, series)
        yield f"{shown}, {machine}: never issued; the nearest are {near}."
        return
    yield f"{shown}, {machine}. " + (
        f"Built {years_words(reading.years)}." if reading.years else "The year is not known."
    )
    for place in asker.fits.card(reading).positions:
        yield from _place(asker, reading, place)


def _place(asker: Asker, reading: Reading, place: AtPosition) -> Iterator[str]:
    yield f"{INDENT}{asker.register.positions[place.position].title} ({STATES[place.state]})"
    for fit in place.fits:
        words = f"{COVERS[fit.covers]} {fitted_words(fit.span)}; {span_words(fit.span, reading.series)}"
        yield f"{INDENT * 2}{fit.assembly.title}: {words}"
    if not place.fits:
        yield f"{INDENT * 2}nobody knows yet"


def _match(asker: Asker, match: Match) -> str:
    part = match.key.part
    whose = asker.register.makers.get(part.key.by, part.key.by)
    mark = f" (mark {match.key.text})" if match.key.mark else ""
    goes = ", ".join(dict.fromkeys(use.assembly.title for use in part.uses))
    return (
        f"{part.number}{mark}, {part.name}, of {whose}; {match.how}. Goes in: {goes or 'nothing recorded'}."
    )
