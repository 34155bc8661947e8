"""Everything that a register holds and answers as named tables: what was typed, and what is worked out of it.

Those of the records are called by their kinds, those of answers begin with `answer_`; `schema/tables.json`
has their columns. Each is put together of the rows of single things, so that whoever has kept those needs
only the rows of what is otherwise now.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from operator import itemgetter
from typing import Any, Generic, TypeVar

from spanbook.answers.answers import Answers
from spanbook.answers.reasons import Weight
from spanbook.answers.standing import Judgement
from spanbook.ground.part_numbers import PartKey
from spanbook.ground.table import Cell, Table
from spanbook.reading import schemas
from spanbook.reading.plain import plain
from spanbook.reading.records import Record, Series
from spanbook.register.tables import column_of, record_tables
from spanbook.site import addresses
from spanbook.wording.questions import question_words

T = TypeVar("T")
Row = tuple[Cell, ...]
Rows = Iterable[Row]
TOGETHER = 64


@dataclass(frozen=True, slots=True)
class Answered(Generic[T]):
    """A table of answers: the `rows` of each of its `things` in their order, of which each has its own
    `name`; so many are worth keeping `together`. What they are `laid` out to is known when all are there."""

    things: Callable[[Answers], Iterable[T]]
    name: Callable[[T], str]
    rows: Callable[[Answers, T], Rows]
    together: int = 1
    laid: Callable[[Rows], Rows] = lambda rows: rows


def tables(answers: Answers, said: Callable[[Record], Mapping[str, Any]] = plain) -> tuple[Table, ...]:
    """All of them; `said` gives what the file of a record says, for whoever has read it already."""
    every = ((name, _every(answers, one)) for name, one in ANSWERED.items())
    return (*record_tables(answers.register.records, said), *(answered(name, rows) for name, rows in every))


def _every(answers: Answers, one: Answered[Any]) -> Rows:
    return (row for thing in one.things(answers) for row in one.rows(answers, thing))


def answered(name: str, rows: Rows) -> Table:
    """A table of answers, by the rows of all its things."""
    schema = schemas.definitions("tables")[name]
    given = schema["properties"].items()
    columns = tuple(column_of(key, one, key in schema["required"]) for key, one in given)
    return Table(name, (schema["title"],), schema["description"], columns, tuple(ANSWERED[name].laid(rows)))


def _built(answers: Answers) -> Iterator[Series]:
    return (series for machine in answers.register.machines.values() for series in machine.series)


def _fits(answers: Answers, series: Series) -> Iterator[Row]:
    """By position and number."""
    show = series.stamp.show
    for position in answers.fits.positions(answers.register.machines[series.machine]):
        for one in answers.fits.segments(series, position):
            last = None if one.last is None else show(one.last)
            run = (series.id, position, show(one.first), last, one.first, one.last, str(one.state))
            held = dict.fromkeys((fit.assembly.id, str(fit.covers), fit.span.option) for fit in one.fits)
            yield from ((*run, *each) for each in held or ((None, None, None),))


def _breaks(answers: Answers, series: Series) -> Iterator[Row]:
    for position in sorted(answers.register.fitted_in.get(series.id, ())):
        for one in answers.breaks_at((series, position)):
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


def _statements(answers: Answers, record: Record) -> Iterator[Row]:
    for statement in answers.register.statements_of[record]:
        judged = answers.judge.of(statement)
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


def _parts(answers: Answers, key: PartKey) -> Iterator[Row]:
    part = answers.register.parts[key]
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


def _questions(answers: Answers, series: Series) -> Iterator[Row]:
    """Each after what it stands by among those of other series."""
    for one in answers.questions_of(series):
        words = question_words(answers.register, one)
        worth = round(one.worth, 6)
        about = one.about.replace("-", " ")
        yield list(one.order), about, one.series.id, one.position, one.machines, worth, words


def _ranked(rows: Rows) -> Iterator[Row]:
    return ((place, *row[1:]) for place, row in enumerate(sorted(rows, key=itemgetter(0)), 1))


def _path(record: Record) -> str:
    return record.origin.path


def _id(series: Series) -> str:
    return series.id


ANSWERED: Mapping[str, Answered[Any]] = {
    "answer_fits": Answered(_built, _id, _fits),
    "answer_breaks": Answered(lambda one: one.register.series.values(), _id, _breaks),
    "answer_statements": Answered(lambda one: one.register.statements_of, _path, _statements, TOGETHER),
    "answer_parts": Answered(lambda one: one.register.parts, lambda key: key.path, _parts, TOGETHER),
    "answer_questions": Answered(lambda one: one.register.series.values(), _id, _questions, laid=_ranked),
}
