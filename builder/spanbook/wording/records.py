"""Records by name, and what their fields may hold, in the words a reader meets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.measures import both_ways, ucum
from spanbook.ground.punctuation import parted
from spanbook.reading.records import (
    Absence,
    Assembly,
    Evidence,
    PartUse,
    ReadWith,
    Record,
    Size,
    Source,
    StripDown,
    Supersession,
    Teardown,
)
from spanbook.register.model import Register
from spanbook.wording.grammar import decimals, inside, listed, span_of, times

CONDITIONS = {
    "untouched": marked("untouched"),
    "likely-original": marked("likely original"),
    "altered": marked("altered"),
    "unknown": marked("not known"),
}
SOURCE_CLASSES = {
    "parts-book": marked("parts book"),
    "service-letter": marked("service letter"),
    "manual": marked("manual"),
    "ledger": marked("works ledger"),
    "drawing": marked("drawing"),
    "data-plate": marked("data plate"),
    "period-photograph": marked("photograph of the period"),
    "advertisement": marked("advertisement"),
    "correspondence": marked("correspondence"),
    "collection": marked("holding of a collection"),
    "recollection": marked("recollection"),
}

SUPPLIED = {
    "yes": marked("still supplied"),
    "no": marked("no longer supplied"),
    "unknown": marked("not known"),
}
ONLY_IN_SET = marked("only in a set")
INTERCHANGE = {
    "both": marked("both ways: the old may also serve where the new is called for"),
    "new-for-old": marked("new for old only"),
}
ALTERNATIVE = marked("one way among others")


def the_title(assembly: Assembly) -> str:
    """An assembly inside a sentence: `the Plate cooler`, or `no cooler` where nothing is fitted."""
    title = inner_title(assembly)
    return title if isinstance(assembly, Absence) else _("the {title}").format(title=title)


def inner_title(record: Record) -> str:
    """A title inside a sentence: that of what is not there begins with a small `no`."""
    title = record_title(record)
    return inside(title) if isinstance(record, Absence) else title


def record_title(record: Record) -> str:
    """What a record is called where another leads to it."""
    match record:
        case Supersession():
            return act_title(record)
        case StripDown():
            return _("{assembly}, taken apart by {who}, {date}").format(
                assembly=record.assembly, who=record.seen_by, date=date_words(record.date)
            )
        case Teardown():
            return f"{record.serial}, {date_words(record.date)}"
        case _:
            return record.title


def act_title(act: Supersession) -> str:
    """An act in a phrase: `WH-1181 replaced by WH-2260 and 2 × WH-2261`."""
    old = _uses(act.old)
    if act.new:
        return _("{old} replaced by {new}").format(old=old, new=_uses(act.new))
    return _("{old} {ended}").format(old=old, ended=ended_words(act))


def ended_words(act: Supersession) -> str:
    """What an act without new numbers says of the old ones."""
    if act.again:
        return _("supplied again")
    return _("still current") if act.current else _("no longer supplied")


def seen_title(teardown: Teardown) -> str:
    """A teardown as evidence: whose machine, and when it was looked at."""
    return _("{serial}, seen {date}").format(serial=teardown.serial, date=date_words(teardown.date))


def picture_of(teardown: Teardown) -> str:
    """Whose machine a photograph shows, and whose it is: `HK 571, seen 1999-10-02 by merrin`."""
    return _("{serial}, seen {date} by {who}").format(
        serial=teardown.serial, date=date_words(teardown.date), who=teardown.seen_by
    )


def date_words(date: str) -> str:
    """When a machine was looked at: `2024-05-11`, `2019 to 2021`, `about 2019`."""
    if date.endswith("~"):
        return _("about {date}").format(date=date[:-1])
    return span_of(date.split("/"))


def evidence_title(register: Register, evidence: Evidence) -> str:
    """The source or teardown that is named as evidence, where in it, and what the record remarks of it."""
    title = (
        register.sources[evidence.source].title
        if evidence.source
        else seen_title(register.teardowns[evidence.teardown or ""])
    )
    return at_words(title, evidence.at) + (f" ({evidence.note})" if evidence.note else "")


def evidence_words(register: Register, evidence: Iterable[Evidence]) -> str:
    """On whose word something is recorded, and who is named as speaking against it."""
    pieces = tuple(evidence)
    for_it = listed([evidence_title(register, piece) for piece in pieces if not piece.against])
    against = listed([evidence_title(register, piece) for piece in pieces if piece.against])
    said = _("on the word of {sources}").format(sources=for_it) if for_it else _("no evidence is named")
    return _("{said}; against it {sources}").format(said=said, sources=against) if against else said


def at_words(title: str, at: str | None) -> str:
    """Something named, and where in it: `Parts book, p. 31`."""
    return f"{title}, {at}" if at else title


def evidence_sort(by: Source | Teardown) -> str:
    """What sort of evidence it is: `parts book`, or `teardown, untouched`."""
    if isinstance(by, Source):
        return _(SOURCE_CLASSES[by.sort])
    return _("teardown, {condition}").format(condition=_(CONDITIONS[by.condition]))


READ_WITH: Mapping[ReadWith, str] = {
    "rule": marked("rule"),
    "caliper": marked("caliper"),
    "micrometer": marked("micrometer"),
    "thread-gauge": marked("thread gauge"),
    "feeler": marked("feeler gauge"),
    "drill": marked("drill"),
    "printed": marked("as printed"),
}


def _uses(uses: tuple[PartUse, ...]) -> str:
    return listed([times(use.quantity, use.number) for use in uses])


def size_title(size: Size) -> str:
    """What was measured, and of which part where it is said."""
    if not size.number:
        return size.what
    return _("{what} of {number}").format(what=size.what, number=size.number)


def size_words(size: Size) -> str:
    """A size in both systems with how it was read: `0.310 in (7.87 mm), 5/16 BSW; caliper, worn`."""
    return span_of([words for words, code in size_ends(size)]) + size_rest(size)


def size_ends(size: Size) -> tuple[tuple[str, str | None], ...]:
    """A size, or the two it lies between, in both systems; each with its UCUM code, for programs."""
    values = (value for value in (size.value, size.to) if value)
    return tuple((decimals(both_ways(value, size.unit)), ucum(value, size.unit)) for value in values)


def size_rest(size: Size) -> str:
    """What stands after a size: the standard that it is, and how it was read."""
    how = [_(READ_WITH[size.read_with])] if size.read_with else []
    how += [size.state] if size.state else []
    standard = f", {size.standard}" if size.standard else ""
    return parted(standard, ", ".join(how)) if how else standard
