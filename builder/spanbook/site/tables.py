"""Everything that a register holds and answers as named tables: what was typed, and what is worked out of it.

Those of the records are called by their kinds, those of answers begin with `answer_`; `schema/tables.json`
has their columns.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from itertools import product
from typing import Any

from spanbook.answers.answers import Answers
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.ground.table import Cell, Table
from spanbook.reading import schemas
from spanbook.reading.plain import plain
from spanbook.reading.records import Record
from spanbook.register.tables import column_of, record_tables
from spanbook.site import addresses
from spanbook.wording.questions import question_words

Rows = Iterator[tuple[Cell, ...]]


def tables(answers: Answers, said: Callable[[Record], Mapping[str, Any]] = plain) -> tuple[Table, ...]:
    """All of them; `said` gives what the file of a record says, for whoever has read it already."""
    answered = (_answered(name, rows(answers)) for name, rows in _ANSWERS.items())
    return (*record_tables(answers.register.records, said), *answered)


def _answered(name: str, rows: Iterable[tuple[Cell, ...]]) -> Table:
    schema = schemas.definitions("tables")[name]
    given = schema["properties"].items()
    columns = tuple(column_of(key, one, key in schema["required"]) for key, one in given)
    return Table(name, (schema["title"],), schema["description"], columns, tuple(rows))


def _fits(answers: Answers) -> Rows:
    """By series, position and number."""
    for machine in answers.register.machines.values():
        for series, position in product(machine.series, answers.fits.positions(machine)):
            show = series.stamp.show
            for one in answers.fits.segments(series, position):
                last = None if one.last is None else show(one.last)
                run = (series.id, position, show(one.first), last, one.first, one.last, str(one.state))
                held = dict.fromkeys((fit.assembly.id, str(fit.covers), fit.span.option) for fit in one.fits)
                yield from ((*run, *each) for each in held or ((None, None, None),))


def _breaks(answers: Answers) -> Rows:
    for one in answers.breaks:
        printed, likely = one.report.claim, None
        if not one.report.posterior.contradiction:
            likely = one.report.posterior.interval()
        yield (
            one.series.id,
            one.position,
            one.earlier.id,
            one.later.id,
            printed.first,
            printed.last,
            likely.first if likely else None,
            likely.last if likely else None,
            len(one.report.observations),
        )


def _statements(answers: Answers) -> Rows:
    for statement, judged in answers.standings.items():
        against = sum(reason.weight is Weight.AGAINST for reason in judged.reasons)
        yield (
            addresses.of_statement(statement),
            statement.record.kind,
            statement.record.id,
            "/".join(map(str, statement.path)) or None,
            statement.position,
            str(judged.standing),
            _for(judged),
            against,
        )


def _for(judged: Judgement) -> int:
    counts = (Weight.PRINTED, Weight.SEEN, Weight.RECALLED)
    return sum(reason.weight in counts for reason in judged.reasons)


def _parts(answers: Answers) -> Rows:
    for key, part in answers.register.parts.items():
        yield (
            addresses.of_part(key),
            key.by,
            part.number,
            key.sense or None,
            part.name or None,
            part.record.id if part.record else None,
            list(dict.fromkeys(use.assembly.id for use in part.uses)),
            [addresses.of_record(one) for one in part.whole],
        )


def _questions(answers: Answers) -> Rows:
    for place, one in enumerate(answers.questions, 1):
        words = question_words(answers.register, one)
        worth = round(one.worth, 6)
        yield place, one.about.replace("-", " "), one.series.id, one.position, one.machines, worth, words


_ANSWERS: Mapping[str, Callable[[Answers], Rows]] = {
    "answer_fits": _fits,
    "answer_breaks": _breaks,
    "answer_statements": _statements,
    "answer_parts": _parts,
    "answer_questions": _questions,
}
