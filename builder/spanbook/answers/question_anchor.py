"""The place of a question on the page of open questions."""

from __future__ import annotations

from spanbook.answers.questions import Question


def anchor(question: Question) -> str:
    """Its place on the page of open questions."""
    ids = known_by(question)[:2]
    lines = (line.keys[0].slug for line in question.lines[:1])
    measured = (one.circuit.id, one.way.id, one.what[0]) if (one := question.measure) else ()
    held = "-".join((*ids, *lines, *measured, *([question.shortfall.which] if question.shortfall else [])))
    place = (question.position or "").replace("/", "--")
    first = question.series.order.slug(question.first)
    return "-".join(filter(None, (question.about, question.series.id, place, first, held))).rstrip("-")


def known_by(question: Question) -> tuple[str, ...]:
    """The ids of what is asked about: of a shortfall first the record it is known by."""
    short = question.shortfall.told_on[:1] if question.shortfall else ()
    return tuple(dict.fromkeys(record.id for record in (*short, *question.assemblies)))
