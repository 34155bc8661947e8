"""What a statement says, in short."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.reading.records import Circuit, Conversion, PartRecord, Series, Supersession
from spanbook.register.statements import (
    Bears,
    BuiltAt,
    Dating,
    Fitting,
    Limit,
    Measurement,
    OfNumber,
    Passing,
    Shows,
    Statement,
    StraySpan,
    Supply,
    Telling,
    Use,
)
from spanbook.wording.numbers import of_number_words
from spanbook.wording.pieces import Pieces, Ref
from spanbook.wording.records import SUPPLIED, act_title
from spanbook.wording.signs import shown_words
from spanbook.wording.spans import span_words


def statement_words(statement: Statement) -> Pieces:
    """Which record makes a statement, and what it says: `Edge strainer: from HK 1 to HK 588`."""
    title, said = _said(statement)
    return Ref(title, statement), f"{_(': ')}{said}"


def _said(statement: Statement) -> tuple[str, str]:
    match subject := statement.subject:
        case Series():
            return statement.record.title, _("the series {}").format(subject.name)
        case Dating(series=series):
            return statement.record.title, _("the years of {}").format(series.name)
        case BuiltAt(series=series, plant=plant):
            told = _("what {plant} built of {series}")
            return statement.record.title, told.format(plant=plant.name, series=series.name)
        case Supply(part=part):
            return part.number, _(SUPPLIED[part.supplied])
        case Telling(record=record):
            return record.title, _("how it is told by eye")
        case Shows(record=record, shown=shown):
            return record.title, _("the sign {sign}, {shown}").format(
                sign=shown.sign, shown=shown_words(shown)
            )
        case Fitting():
            return subject.assembly.title, span_words(subject.span, subject.series)
        case StraySpan():
            return subject.assembly.title, _("in {}").format(subject.span.series)
        case Use():
            named = f"{subject.number} {subject.name or ''}".strip()
            return subject.assembly.title, _("contains {}").format(named)
        case Limit(line=line):
            named = f"{line.number} {line.name or ''}".strip()
            return subject.assembly.title, f"{named} {span_words(subject.span, subject.series)}"
        case PartRecord():
            return subject.number, subject.title
        case Measurement():
            return subject.part.number, subject.size.what
        case OfNumber():
            return subject.part.number, of_number_words(subject)
        case Supersession():
            return act_title(subject), _("supersession")
        case Conversion():
            return subject.title, _("conversion")
        case Bears(unit=unit, number=number):
            return unit.title, _("bears {}").format(number.serial)
        case Circuit():
            return subject.title, _("circuit")
        case Passing(record=record, way=way):
            return record.title, _("the way through {}").format(way.title or way.id)
