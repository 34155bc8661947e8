"""One very machine as JSON: the parts that `schema/answer-ask.json` calls left, odds, seen and changed."""

from __future__ import annotations

from typing import Any

from spanbook.answers.parts_here import PartsHere
from spanbook.answers.questions import Question
from spanbook.answers.standing import Judgement
from spanbook.answers.this_machine import ChangedTo, Odds, SeenHere, ThisPosition
from spanbook.outputs.json.codes import published
from spanbook.register.model import Register
from spanbook.wording.questions import question_words

Object = dict[str, Any]


def position_object(register: Register, place: ThisPosition) -> Object:
    """What one position left the works with, what was seen there, what it may have been changed to."""
    return {
        "left": [
            {
                "id": left.fit.assembly.id,
                "covers": str(left.fit.covers),
                "option": left.fit.span.option,
                **_judged(left.judgement),
            }
            for left in place.left
        ],
        "odds": [_odds(one) for one in place.odds],
        "seen": [_seen(one) for one in place.seen],
        "changed": [_changed(one) for one in place.changed],
        "others": [
            {
                "series": one.series.id,
                "number": one.number,
                "state": str(segment.state),
                "assemblies": list(dict.fromkeys(fit.assembly.id for fit in segment.fits)),
            }
            for one, segment in place.others
        ],
        "parts": [_parts(register, one) for one in place.parts],
    }


def question_object(register: Register, question: Question) -> Object:
    return {
        "about": published(question.about),
        "position": question.position,
        "words": question_words(register, question),
    }


def _odds(odds: Odds) -> Object:
    return {"earlier": odds.at.earlier.id, "later": odds.at.later.id, "before": round(float(odds.before), 6)}


def _seen(seen: SeenHere) -> Object:
    return {
        "teardown": seen.teardown.id,
        "date": seen.teardown.date,
        "by": seen.teardown.seen_by,
        "condition": seen.find.condition,
        "exact": seen.exact,
        "id": seen.find.assembly,
        **({"one-of": list(seen.find.one_of)} if seen.find.one_of else {}),
        "note": seen.find.note,
        "means": str(seen.meaning.means),
        "through": [conversion.id for conversion in seen.meaning.through],
        "against": list(dict.fromkeys(fitting.assembly.id for fitting in seen.meaning.against)),
    }


def _changed(changed: ChangedTo) -> Object:
    return {
        "id": changed.assembly.id,
        "spans": [
            {"fitted": fit.span.fitted, "covers": str(fit.covers), **_judged(judged)}
            for fit, judged in changed.fits
        ],
        "conversions": [
            {
                "id": step.conversion.id,
                "covers": "maybe" if step.maybe else "yes",
                **_judged(judged),
            }
            for step, judged in changed.steps
        ],
    }


def _parts(register: Register, parts: PartsHere) -> Object:
    """The lines of one place of a list that the machine surely or possibly has by its number."""
    return {
        "id": parts.assembly.id,
        "lines": [
            {
                "numbers": [{"number": register.parts[k].number, "by": k.by} for k in one.line.keys],
                "quantity": one.line.part.quantity,
                "covers": str(one.covers),
                "spans": [_judged(judged) for _, judged in limits],
            }
            for one, limits in zip(parts.held.lines, parts.limits, strict=True)
        ],
    }


def _judged(judged: Judgement) -> Object:
    """How far a statement is to be trusted, and who speaks for it and against."""
    return {
        "standing": str(judged.standing),
        "reasons": [
            {"weight": str(r.weight), "kind": r.by.kind, "id": r.by.id, "at": r.at, "note": r.note}
            for r in judged.reasons
        ],
    }
