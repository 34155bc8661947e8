"""The answer of a record's page in one line: what a pasted link shows of it."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.reading.records import (
    Assembly,
    Conversion,
    Machine,
    Series,
    Source,
    Supersession,
    Teardown,
)
from spanbook.register.model import Part, Position, Register
from spanbook.wording.conversions import start_words
from spanbook.wording.grammar import capital, listed, plural
from spanbook.wording.orders import limit_words
from spanbook.wording.records import SOURCE_CLASSES, act_title, date_words
from spanbook.wording.spans import fitted_words, run_words, span_words
from spanbook.wording.years import year_words

MOST_NAMED = 12  # of a position: more than a line holds
MOST_ASSEMBLIES = 3  # that a part number is said to go in


def machine_summary(machine: Machine) -> str:
    runs = "; ".join(map(run_words, machine.series))
    return f"{machine.title}, by {machine.maker}. Serial numbers {runs}."


def series_summary(machine: Machine, series: Series) -> str:
    return f"What left the works on {run_words(series)} of the {machine.title}, position by position."


def position_summary(register: Register, position: Position) -> str:
    """What may occupy a position; of a group, the positions inside it."""
    if not position.holds:
        return f"{position.title}: {listed([register.positions[path].title for path in position.below])}."
    held = [assembly.title for assembly in register.at_position.get(position.path, ())]
    if len(held) > MOST_NAMED:
        held[MOST_NAMED - 1 :] = [f"one of {len(held) - MOST_NAMED + 1} others"]
    return f"{position.title}: {listed(held, 'or') or 'nothing recorded yet'}."


def assembly_summary(register: Register, assembly: Assembly) -> str:
    if assembly.retired:
        return f"{register.positions[assembly.position].title}: {assembly.title}, retired."
    spans = "; ".join(
        f"{span_words(span, register.series[span.series])} ({fitted_words(span)})"
        for span in assembly.serials
    )
    return f"{register.positions[assembly.position].title}: {assembly.title}, {spans}."


def part_summary(part: Part, owner: str) -> str:
    where = listed(list(dict.fromkeys(use.assembly.title for use in part.uses))[:MOST_ASSEMBLIES])
    goes = f" Goes in: {where}." if where else ""
    return f"{part.number}, {part.name or 'a part'} ({owner}).{goes}"


def act_summary(register: Register, act: Supersession) -> str:
    limited = f", {limit_words(register, act.serials)}" if act.serials else ""
    return f"{act_title(act)}{limited}."


def conversion_summary(register: Register, conversion: Conversion) -> str:
    spans = "; ".join(span_words(span, register.series[span.series]) for span in conversion.serials)
    to = register.assemblies[conversion.to].title
    return f"Turns {start_words(register, conversion)} into {to}: {spans}."


def source_summary(source: Source, statements: int, against: int) -> str:
    """What sort of source it is, how many statements rest on it, and against how many it speaks."""
    year = f", {year_words(source.year)}" if source.year else ""
    told = [plural(statements, "{} statement rests on it.", "{} statements rest on it.")]
    if against:
        told.append(plural(against, "It speaks against {} statement.", "It speaks against {} statements."))
    return f"{capital(_(SOURCE_CLASSES[source.sort]))}{year}. {' '.join(told if statements else told[-1:])}"


def teardown_summary(register: Register, teardown: Teardown) -> str:
    places = listed([register.positions[find.position].title.lower() for find in teardown.found])
    return f"What {teardown.seen_by} saw on {teardown.serial}, {date_words(teardown.date)}: {places}."
