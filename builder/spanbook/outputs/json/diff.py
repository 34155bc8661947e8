"""A comparison as one JSON object; `schema/answer-compare.json` is its law."""

from __future__ import annotations

from typing import Any

from spanbook.answers.diff.model import Answer, Comparison, Ordered, StatementChange
from spanbook.answers.questions import Question
from spanbook.ground.intervals import Run
from spanbook.ground.years import Years
from spanbook.outputs.json.codes import ordering_of, published
from spanbook.register.model import Register
from spanbook.wording.grounds import typed
from spanbook.wording.headline import headline
from spanbook.wording.questions import question_words
from spanbook.wording.years import years_words

Object = dict[str, Any]


def as_object(found: Comparison) -> Object:
    return {
        "kind": "compare",
        "nothing": found.nothing,
        "headline": [{"about": about, "words": words} for about, words in headline(found)],
        "records": [
            {"change": one.sort, "kind": one.kind, "id": one.id, "before": one.before}
            for one in found.records
        ],
        "answers": [
            {
                "series": one.series,
                "position": one.position,
                "first": one.change.first,
                "last": one.change.last,
                "before": _answer(one.change.before),
                "after": _answer(one.change.after),
            }
            for one in found.answers
        ],
        "years": [
            {
                "series": one.series,
                "first": one.change.first,
                "last": one.change.last,
                "before": _dated(one.change.before),
                "after": _dated(one.change.after),
            }
            for one in found.years
        ],
        "orders": [
            {
                "number": (found.new.parts.get(one.key) or found.old.parts[one.key]).number,
                "by": one.key.by,
                "before": _ordered(found.old, one.before),
                "after": _ordered(found.new, one.after),
            }
            for one in found.orders
        ],
        "standings": [
            {
                "kind": one.kind,
                "record": one.record,
                "anchor": one.anchor,
                "before": one.before,
                "after": one.after,
            }
            for one in found.standings
        ],
        "unbacked": [_unbacked(one) for one in found.unbacked],
        "breaks": [
            {
                "series": one.series.id,
                "position": one.position,
                "earlier": one.earlier,
                "later": one.later,
                "before": _numbers(one.before),
                "after": _numbers(one.after),
                "by": [{"kind": record.kind, "id": record.id} for record in one.by],
            }
            for one in found.breaks
        ],
        "questions": {
            "opened": [_question(found.new, question) for question in found.opened],
            "closed": [_question(found.old, question) for question in found.closed],
        },
        "besides": list(found.besides),
        "addresses": {"born": list(found.born), "dead": list(found.dead)},
    }


def _unbacked(one: StatementChange) -> Object:
    record = one.after.record
    fields = [
        {
            "field": ".".join(map(str, change.steps)),
            "before": typed(change.before),
            "after": typed(change.after),
        }
        for change in one.fields
    ]
    place = {"path": one.place.path, "line": one.place.line}
    return {"kind": record.kind, "record": record.id, "anchor": one.after.anchor, **place, "fields": fields}


def _numbers(run: Run | None) -> Object | None:
    return {"first": run.first, "last": run.last} if run else None


def _dated(years: Years | None) -> str | None:
    return years_words(years) if years else None


def _answer(answer: Answer | None) -> Object | None:
    if answer is None:
        return None
    assemblies = [
        {
            "id": held.assembly,
            "covers": held.covers,
            "fitted": held.fitted,
            "option": held.option,
            "lines": [
                {"name": one.name, "numbers": list(one.numbers), "sure": one.sure} for one in held.lines
            ],
        }
        for held in answer.held
    ]
    return {"state": answer.state, "assemblies": assemblies}


def _ordered(register: Register, ordered: Ordered | None) -> Object | None:
    if ordered is None:
        return None
    ways = [
        [
            {
                "number": register.parts[leaf.key].number,
                "by": leaf.key.by,
                "quantity": leaf.quantity,
                **ordering_of(way, leaf),
            }
            for leaf in way.leaves
        ]
        for way in ordered.ways
    ]
    return {"ways": ways, "acts": [term.act for term in ordered.terms]}


def _question(register: Register, question: Question) -> Object:
    return {
        "about": published(question.about),
        "position": question.position,
        "series": question.series.id,
        "first": question.first,
        "last": question.last,
        "runs": [[run.first, run.last] for run in question.runs],
        "words": question_words(register, question),
    }
