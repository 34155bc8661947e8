"""Records by name, and what their fields may hold, in the words a reader meets."""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from spanbook.ground.measures import both_ways, ucum
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
from spanbook.wording.grammar import listed, times

CONDITIONS = {
    "untouched": "untouched",
    "likely-original": "likely original",
    "altered": "altered",
    "unknown": "not known",
}
SOURCE_CLASSES = {
    "parts-book": "parts book",
    "service-letter": "service letter",
    "manual": "manual",
    "ledger": "works ledger",
    "drawing": "drawing",
    "data-plate": "data plate",
    "period-photograph": "photograph of the period",
    "advertisement": "advertisement",
    "correspondence": "correspondence",
    "collection": "holding of a collection",
    "recollection": "recollection",
}

SUPPLIED = {"yes": "still supplied", "no": "no longer supplied", "unknown": "not known"}
ONLY_IN_SET = "only in a set"
INTERCHANGE = {
    "both": "both ways: the old may also serve where the new is called for",
    "new-for-old": "new for old only",
}
ALTERNATIVE = "one way among others"


def the_title(assembly: Assembly) -> str:
    """An assembly inside a sentence: `the Plate cooler`, or `no cooler` where nothing is fitted."""
    return article(assembly) + inner_title(assembly)


def article(record: Record) -> str:
    """What stands before a title inside a sentence: nothing before `no cooler`."""
    return "" if isinstance(record, Absence) else "the "


def inner_title(record: Record) -> str:
    """A title inside a sentence: that of what is not there begins with a small `no`."""
    title = record_title(record)
    return title[:1].lower() + title[1:] if isinstance(record, Absence) else title


def record_title(record: Record) -> str:
    """What a record is called where another leads to it."""
    match record:
        case Supersession():
            return act_title(record)
        case StripDown():
            return f"{record.assembly}, taken apart by {record.seen_by}, {date_words(record.date)}"
        case Teardown():
            return f"{record.serial}, {date_words(record.date)}"
        case _:
            return record.title


def act_title(act: Supersession) -> str:
    """An act in a phrase: `WH-1181 replaced by WH-2260 and 2 × WH-2261`."""
    old = _uses(act.old)
    if act.new:
        return f"{old} replaced by {_uses(act.new)}"
    return f"{old} {ended_words(act)}"


def ended_words(act: Supersession) -> str:
    """What an act without new numbers says of the old ones."""
    if act.again:
        return "supplied again"
    return "still current" if act.current else "no longer supplied"


def seen_title(teardown: Teardown) -> str:
    """A teardown as evidence: whose machine, and when it was looked at."""
    return f"{teardown.serial}, seen {date_words(teardown.date)}"


def picture_of(teardown: Teardown) -> str:
    """Whose machine a photograph shows, and whose it is: `HK 571, seen 1999-10-02 by merrin`."""
    return f"{seen_title(teardown)} by {teardown.seen_by}"


def date_words(date: str) -> str:
    """When a machine was looked at: `2024-05-11`, `2019 to 2021`, `about 2019`."""
    if date.endswith("~"):
        return f"about {date[:-1]}"
    return date.replace("/", " to ")


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
    said = f"on the word of {for_it}" if for_it else "no evidence is named"
    return f"{said}; against it {against}" if against else said


def at_words(title: str, at: str | None) -> str:
    """Something named, and where in it: `Parts book, p. 31`."""
    return f"{title}, {at}" if at else title


def evidence_sort(by: Source | Teardown) -> str:
    """What sort of evidence it is: `parts book`, or `teardown, untouched`."""
    if isinstance(by, Source):
        return SOURCE_CLASSES[by.sort]
    return f"teardown, {CONDITIONS[by.condition]}"


READ_WITH: Mapping[ReadWith, str] = {
    "rule": "rule",
    "caliper": "caliper",
    "micrometer": "micrometer",
    "thread-gauge": "thread gauge",
    "feeler": "feeler gauge",
    "drill": "drill",
    "printed": "as printed",
}


def _uses(uses: tuple[PartUse, ...]) -> str:
    return listed([times(use.quantity, use.number) for use in uses])


def size_title(size: Size) -> str:
    """What was measured, and of which part where it is said."""
    return f"{size.what} of {size.number}" if size.number else size.what


def size_words(size: Size) -> str:
    """A size in both systems with how it was read: `0.310 in (7.87 mm), 5/16 BSW; caliper, worn`."""
    return " to ".join(words for words, _ in size_ends(size)) + size_rest(size)


def size_ends(size: Size) -> tuple[tuple[str, str | None], ...]:
    """A size, or the two it lies between, in both systems; each with its UCUM code, for programs."""
    values = (value for value in (size.value, size.to) if value)
    return tuple((both_ways(value, size.unit), ucum(value, size.unit)) for value in values)


def size_rest(size: Size) -> str:
    """What stands after a size: the standard that it is, and how it was read."""
    how = [READ_WITH[size.read_with]] if size.read_with else []
    how += [size.state] if size.state else []
    standard = f", {size.standard}" if size.standard else ""
    return f"{standard}; {', '.join(how)}" if how else standard
