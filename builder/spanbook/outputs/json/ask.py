"""Answers as JSON objects, one a query; `schema/answer-ask.json` is their law."""

from __future__ import annotations

from typing import Any

from spanbook.answers.applicability import AtPosition
from spanbook.answers.listed import listed, replaced_by
from spanbook.answers.pictured import pictured
from spanbook.answers.readings import Reading, worn_to
from spanbook.answers.search import Answer, Asker, How, Known, Match
from spanbook.answers.together import together
from spanbook.ground.standards import Standard
from spanbook.outputs.json.figures import figure_objects
from spanbook.outputs.json.lists import list_objects
from spanbook.outputs.json.this_machine import position_object, question_object
from spanbook.reading.records import Absence
from spanbook.register.model import Part
from spanbook.register.units import Number
from spanbook.wording.search import suggestions

Object = dict[str, Any]
LIKE = (How.BEGINS, How.ENDS)  # no number that was typed, but one like it


def as_object(asker: Asker, query: str) -> Object:
    """A serial number if it reads as one, else a part number or mark, else what words find, else nothing.

    What it may be as a size stands beside all of them.
    """
    answer = asker.ask(query)
    sizes = [_size(*one) for one in answer.sizes]
    found = _found(asker, answer, answer.query)
    return {**found, "query": query, **({"sizes": sizes} if sizes else {})}  # the query as it was typed


def _size(standard: Standard, parts: tuple[Part, ...]) -> Object:
    """A standard size, and the parts that are recorded to have it."""
    found = [{"number": part.number, "by": part.key.by} for part in parts]
    return {
        "standard": standard.name,
        "sort": str(standard.sort),
        "source": standard.source,
        "parts": found,
    }


def _found(asker: Asker, answer: Answer, query: str) -> Object:
    if answer.places:
        return {"query": query, "kind": "serial", "readings": _asked_places(asker, answer), "worn": []}
    readings, worn = asker.serials(query)
    also = [_named(one) for one in worn_to(asker.register, query)]
    retired = [_retired(number) for number in asker.retired(query)]
    matches = [_match(asker, match) for match in asker.matches(query) if match.how not in LIKE]
    if readings or worn or retired or (also and not matches):
        found = [_reading(asker, reading) for reading in (*readings, *worn)]
        made = {"query": query, "kind": "serial", "readings": found, "worn": also}
        made |= {"retired": retired} if retired else {}
        apart = [str(one.apart) for one in together(asker.register, query) if one.apart]
        return {**made, "apart": apart[0]} if apart else made
    if matches:
        return {"query": query, "kind": "number", "matches": matches}
    if answer.loose or answer.matches or answer.documents:
        return {"query": query, "kind": "words", **_by_words(asker, answer)}
    if answer.sizes:
        return {"query": query, "kind": "size"}
    return {"query": query, "kind": "none", "suggestions": list(suggestions(asker, query))}


def _by_words(asker: Asker, answer: Answer) -> Object:
    """What only begins as asked, what the letters of a plate would make of it, and pages."""
    return {
        "matches": [_match(asker, match) for match in answer.matches],
        "may-be": [_named(one) for one in answer.loose],
        "documents": [
            {"title": one.title, "sort": one.sort, "address": one.address} for one in answer.documents
        ],
        "more": answer.more_matches or answer.more_documents,
    }


def _asked_places(asker: Asker, answer: Answer) -> list[Object]:
    """Machines with those of their positions that were asked for."""
    wanted = {(reading.own, place.position) for reading, place in answer.places}
    made = [(reading, _reading(asker, reading)) for reading in dict.fromkeys(one for one, _ in answer.places)]
    return [
        {**whole, "positions": [p for p in whole["positions"] if (reading.own, p["position"]) in wanted]}
        for reading, whole in made
    ]


def _reading(asker: Asker, reading: Reading) -> Object:
    years = reading.years
    machine = asker.answers.machines.of(reading)
    there = asker.answers.fits.card(reading).positions
    return {
        **_named(reading),
        "issued": reading.issued,
        "years": [years.first, years.last] if years else None,
        "part-of-year": str(part) if reading.issued and (part := reading.part_of_year) else None,
        "plants": [plant.name for plant in reading.plants] if reading.issued else [],
        "unit": reading.unit.id if reading.unit else None,
        "numbers": [_named(one) for one in reading.numbers or (reading.own,)],
        "positions": [
            {**_position(place), **position_object(asker.register, known)}
            for place, known in zip(there, machine.positions, strict=True)
        ],
        "teardowns": [teardown.id for teardown in machine.teardowns],
        "perhaps": [teardown.id for teardown in machine.perhaps],
        "questions": [question_object(asker.register, question) for question in machine.questions],
    }


def _named(one: Reading | Number) -> Object:
    """The series, the place in its running order, and what the plate has there."""
    stamped = one.series.stamp.show(one.number)
    return {"series": one.series.id, "number": one.number, "stamped": stamped}


def _retired(number: Number) -> Object:
    """A number of a series that is retired: why, and the series that it leads on to."""
    return {**_named(number), "why": number.series.retired, "now": list(number.series.now)}


def _position(place: AtPosition) -> Object:
    return {
        "position": place.position,
        "state": str(place.state),
        "there": str(place.segment.there),
        "ask-by": place.segment.ask_by,
        "by": _named(place.reading.own),
        # However many claims give it the number, an assembly is there once.
        "assemblies": [
            {
                "id": one.id,
                "nothing": isinstance(one, Absence),
                "covers": covers,
                "fitted": by,
                "option": option,
            }
            for one, covers, by, option in dict.fromkeys(
                (fit.assembly, str(fit.covers), fit.span.fitted, fit.span.option) for fit in place.fits
            )
        ],
    }


def _match(asker: Asker, match: Match) -> Object:
    part = match.key.part
    made: Object = {
        "number": part.number,
        "by": part.key.by,
        "how": str(match.how),
        "assemblies": _assemblies(part),
        "whole": [{"kind": one.kind, "id": one.id} for one in part.whole],
        "in-place-of": [
            {"number": old.number, "by": old.key.by, "assemblies": _assemblies(old)}
            for old in replaced_by(asker.register, part)
        ],
        "replaced-by": [act.id for act in part.old_in],
        "lists": list_objects(asker.answers.fits.lists, listed(asker.answers.ever, part.key)),
        "figures": figure_objects(asker.register, pictured(asker.register, part)),
    }
    if match.key.known is not Known.NUMBER:
        made[str(match.key.known)] = match.key.text
    if part.key.sense:
        made["means"] = part.key.sense
    return made


def _assemblies(part: Part) -> list[str]:
    return list(dict.fromkeys(use.assembly.id for use in part.uses))
