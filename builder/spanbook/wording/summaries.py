"""The answer of a record's page in one line: what a pasted link shows of it."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled, parted
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
from spanbook.wording.grammar import capital, listed, plural, small
from spanbook.wording.orders import limit_words
from spanbook.wording.records import SOURCE_CLASSES, act_title, date_words
from spanbook.wording.spans import fitted_words, run_words, span_words
from spanbook.wording.years import year_words

MOST_NAMED = 12  # of a position: more than a line holds
MOST_ASSEMBLIES = 3  # that a part number is said to go in


def machine_summary(machine: Machine) -> str:
    runs = parted(*map(run_words, machine.series))
    told = _("{machine}, by {maker}. Serial numbers {runs}.")
    return told.format(machine=machine.title, maker=machine.maker, runs=runs)


def series_summary(machine: Machine, series: Series) -> str:
    told = _("What left the works on {numbers} of the {machine}, position by position.")
    return told.format(numbers=run_words(series), machine=machine.title)


def position_summary(register: Register, position: Position) -> str:
    """What may occupy a position; of a group, the positions inside it."""
    if not position.holds:
        return labelled(
            position.title, f"{listed([register.positions[path].title for path in position.below])}."
        )
    held = [assembly.title for assembly in register.at_position.get(position.path, ())]
    if len(held) > MOST_NAMED:
        others = len(held) - MOST_NAMED + 1
        held[MOST_NAMED - 1 :] = [plural(others, "one of {} other", "one of {} others")]
    return labelled(position.title, f"{listed(held, 'or') or _('nothing recorded yet')}.")


def assembly_summary(register: Register, assembly: Assembly) -> str:
    if assembly.retired:
        told = _("{position}: {assembly}, retired.")
        return told.format(position=register.positions[assembly.position].title, assembly=assembly.title)
    spans = parted(
        *(
            f"{span_words(span, register.series[span.series])} ({fitted_words(span)})"
            for span in assembly.serials
        )
    )
    return labelled(register.positions[assembly.position].title, f"{assembly.title}, {spans}.")


def part_summary(part: Part, owner: str) -> str:
    where = listed(list(dict.fromkeys(use.assembly.title for use in part.uses))[:MOST_ASSEMBLIES])
    goes = f" {_('Goes in: {}.').format(where)}" if where else ""
    return f"{part.number}, {part.name or _('a part')} ({owner}).{goes}"


def act_summary(register: Register, act: Supersession) -> str:
    limited = f", {limit_words(register, act.serials)}" if act.serials else ""
    return f"{act_title(act)}{limited}."


def conversion_summary(register: Register, conversion: Conversion) -> str:
    spans = parted(*(span_words(span, register.series[span.series]) for span in conversion.serials))
    to = register.assemblies[conversion.to].title
    told = _("Turns {start} into {end}: {spans}.")
    return told.format(start=start_words(register, conversion), end=to, spans=spans)


def source_summary(source: Source, statements: int, against: int) -> str:
    """What sort of source it is, how many statements rest on it, and against how many it speaks."""
    year = f", {year_words(source.year)}" if source.year else ""
    told = [plural(statements, "{} statement rests on it.", "{} statements rest on it.")]
    if against:
        told.append(plural(against, "It speaks against {} statement.", "It speaks against {} statements."))
    return f"{capital(_(SOURCE_CLASSES[source.sort]))}{year}. {' '.join(told if statements else told[-1:])}"


def teardown_summary(register: Register, teardown: Teardown) -> str:
    places = listed([small(register.positions[find.position].title) for find in teardown.found])
    return _("What {who} saw on {machine}, {date}: {places}.").format(
        who=teardown.seen_by, machine=teardown.serial, date=date_words(teardown.date), places=places
    )
