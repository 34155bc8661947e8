"""On whose word answers change: what speaks against the records, what was looked at, what moved and why."""

from __future__ import annotations

from spanbook.answers.diff.model import (
    Against,
    BreakChange,
    Comparison,
    Contradictions,
    FieldChange,
    Look,
    StatementChange,
)
from spanbook.answers.reasons import Had, Reason, Weight
from spanbook.ground.intervals import Run
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.punctuation import labelled, parted
from spanbook.reading.nodes import Node, plain
from spanbook.reading.records import Assembly, Record, Series, Teardown
from spanbook.reading.write import flow
from spanbook.register.model import Register
from spanbook.register.statements import (
    BuiltAt,
    Dating,
    Fitting,
    Limit,
    Measurement,
    OfNumber,
    Shows,
    Statement,
    StraySpan,
    Supply,
    Telling,
    Use,
)
from spanbook.wording.grammar import listed, plural, small
from spanbook.wording.numbers import of_number_words
from spanbook.wording.records import CONDITIONS, evidence_title, record_title
from spanbook.wording.spans import numbers_words, span_words
from spanbook.wording.standings import had_words, reason_title, shown_words

# Of one look all places alike; and of the places that are named, where they differ.
_SHOWN = {
    Weight.AGAINST: marked("against what is recorded"),
    Weight.SEEN: marked("as recorded"),
    Weight.EXPLAINED: marked("explained by a conversion or a later part that is recorded"),
    Weight.SET_ASIDE: marked("set aside for its condition"),
    None: marked("nothing is recorded that it bears on"),
}
_PLACES_SHOWN = {
    Weight.AGAINST: marked("{} against what is recorded"),
    Weight.SEEN: marked("{} as recorded"),
    Weight.EXPLAINED: marked("{} explained by a conversion or a later part that is recorded"),
    Weight.SET_ASIDE: marked("{} set aside for its condition"),
    None: marked("{} nothing is recorded that it bears on"),
}


def against_words(register: Register, one: Against) -> str:
    """Who saw or says what, and what is recorded on whose word."""
    recorded, said = listed(recorded_words(register, one)[:2]), spoken_words(one.reason)
    told = (
        _("contradicts: {said}; recorded {recorded}")
        if one.fresh
        else _("contradicts what was known: now recorded {recorded}; {said}")
    )
    return told.format(said=said, recorded=recorded)


def spoken_words(reason: Reason) -> str:
    """Who saw or says what: `Parts book, p. 1: knows two series only`."""
    if isinstance(reason.by, Teardown) and isinstance(reason.shown, Had):
        seen = reason.by
        whose = f"{seen.serial} ({_(CONDITIONS[seen.condition])})"
        told = _("{who} saw {what} on {machine}")
        return told.format(who=seen.seen_by, what=had_words(reason.shown), machine=whose)
    shown, note = shown_words(reason), reason.note
    return reason_title(reason) + (f", {shown}" if shown else "") + (f"{_(': ')}{note}" if note else "")


def recorded_words(register: Register, one: Against) -> list[str]:
    """What is contradicted: another assembly there, else that the one that was seen is not."""
    seen = one.reason.shown.assembly if isinstance(one.reason.shown, Had) else None
    told, mine = list[str](), list[str]()
    for statement in one.statements:
        subject, by = statement.subject, _named(register, statement) or _("nobody")
        if isinstance(subject, Fitting) and subject.assembly is seen:
            only = _("the {assembly} only {span}, by {whom}")
            span = span_words(subject.span, subject.series)
            mine.append(only.format(assembly=seen.title, span=span, whom=by))
        else:
            told.append(_("{what}, by {whom}").format(what=_short(statement), whom=by))
    return told or mine


def _short(statement: Statement) -> str:
    subject = statement.subject
    return _the(subject.assembly) if isinstance(subject, Fitting) else called(statement)


def _the(assembly: Assembly) -> str:
    return _("the {title}").format(title=assembly.title)


def called(statement: Statement) -> str:
    """What a statement is about, in short."""
    match subject := statement.subject:
        case Fitting():
            return f"{_the(subject.assembly)}, {subject.series.name}"
        case StraySpan():
            return _the(subject.assembly)
        case Use():
            return _of(subject.number, subject.assembly)
        case Limit():
            return f"{_of(subject.line.number, subject.assembly)}, {subject.series.name}"
        case Series():
            return subject.name
        case Dating(series=series):
            return _("the years of {}").format(series.name)
        case BuiltAt(series=series, plant=plant):
            return _("what {plant} built of {series}").format(plant=plant.name, series=series.name)
        case Supply(part=part):
            return _("the supply of {}").format(part.number)
        case Telling(record=record):
            return _("how to tell {}").format(record.title)
        case Shows(record=record, shown=shown):
            return _("the sign {sign} of {record}").format(sign=shown.sign, record=record.title)
        case OfNumber(part=part):
            return labelled(part.number, of_number_words(subject))
        case Measurement():
            return _("{what} of {number}").format(what=subject.size.what, number=subject.part.number)
        case _:
            return record_title(statement.record)


def _of(number: str, assembly: Assembly) -> str:
    return _("{number} of the {assembly}").format(number=number, assembly=assembly.title)


def _named(register: Register, statement: Statement) -> str:
    """What a statement rests on; a part in a list that names nothing goes with its assembly."""
    evidence = tuple(e for e in statement.evidence if not e.against)
    if isinstance(statement.subject, Use) and not evidence:
        evidence = tuple(e for span in statement.subject.assembly.serials for e in span.evidence)
    named = list(dict.fromkeys(evidence_title(register, one) for one in evidence))
    more = [plural(len(named) - 2, "{} more", "{} more")] if len(named) > 2 else []
    return listed([*named[:2], *more])


def unbacked_words(register: Register, one: StatementChange) -> str:
    """What stood there and what does, on what it rests all the same, and the line."""
    at = f"{one.place.path}:{one.place.line}"
    named = _named(register, one.after)
    rests = _("it still rests on {}").format(named) if named else _("it names no evidence")
    return labelled(called(one.after), parted(changed_words(one), rests, _("ask why ({})").format(at)))


def changed_words(one: StatementChange) -> str:
    """What stood there and what does."""
    return ", ".join(map(_field_words, one.fields))


def _field_words(change: FieldChange) -> str:
    """A field in a line, and where it stands: `last: 588 → 590`, `item 2 of new, quantity: 2 → 3`."""
    where = list[str]()
    for step in change.steps:
        if isinstance(step, int):
            where[-1] = _("item {number} of {list}").format(number=step + 1, list=where[-1])
        else:
            where.append(step)
    was, now = (typed(node) or _("nothing") for node in (change.before, change.after))
    return labelled(", ".join(where), f"{was} → {now}")


def typed(node: Node | None) -> str | None:
    """What stands in a file, on one line; None where nothing does."""
    return None if node is None else flow(plain(node))


def break_words(found: Comparison | Contradictions, one: BreakChange) -> str:
    """Where the break was and where it is, and whose word moved it."""
    return _("the break {}").format(moved_words(found, one))


def moved_words(found: Comparison | Contradictions, one: BreakChange) -> str:
    """The same of whatever it is called: `from the Strainer to the Cartridge: it was HK 560 ...`."""
    both = {**found.old.assemblies, **found.new.assemblies}
    told = _("from the {earlier} to the {later}: it was {was}, it is {now}, on the word of {whom}")
    return told.format(
        earlier=both[one.earlier].title,
        later=both[one.later].title,
        was=_place(one.before, one.series),
        now=_place(one.after, one.series),
        whom=listed([_witness(record) for record in one.by]) or _("nobody"),
    )


def _place(run: Run | None, series: Series) -> str:
    return numbers_words(run.first, run.last, series) if run else _("what was seen cannot all be true")


def _witness(record: Record) -> str:
    if isinstance(record, Teardown):
        return f"{record.seen_by} ({record.serial})"
    return record_title(record)


def look_words(register: Register, look: Look) -> str:
    """Whose machine was looked at, and what that does to what is recorded."""
    seen = look.teardown
    who = f"{seen.seen_by}, {seen.date}, {_(CONDITIONS[seen.condition])}"
    head = _("a first teardown of {serial} ({seen})") if look.first else _("a teardown of {serial} ({seen})")
    head = head.format(serial=seen.serial, seen=who)
    if not look.shown:
        return labelled(head, _("it names no assembly"))
    by_weight: dict[Weight | None, list[str]] = {}
    for position, weight in look.shown:
        by_weight.setdefault(weight, []).append(small(register.positions[position].title))
    told = [
        _(_PLACES_SHOWN[weight]).format(listed(places)) if len(by_weight) > 1 else _(_SHOWN[weight])
        for weight, places in by_weight.items()
    ]
    return labelled(head, parted(*told))
