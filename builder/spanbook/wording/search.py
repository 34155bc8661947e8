"""What is found for a query, in words."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.answers.by_words import Document
from spanbook.answers.listed import Listed
from spanbook.answers.readings import Reading
from spanbook.answers.search import Answer, Asker, How, Known, Match, finding_alone, nearest_run
from spanbook.ground.matching import read_as
from spanbook.register.model import Register
from spanbook.wording.finder import MOST_TAKEN, read_words
from spanbook.wording.grammar import listed
from spanbook.wording.lines import only_words
from spanbook.wording.numbers import match_remarks
from spanbook.wording.spans import numbers_words

KNOWN = {
    Known.NUMBER: "",
    Known.ALSO: " (which also goes by {})",
    Known.MISPRINT: " ({} is a misprint for it)",
    Known.FORMER: " (recorded as {} before)",
    Known.MARK: " (mark {})",
}
HOW = {How.EXACT: "exact", How.SPACING: "spacing", How.WORN: "worn", How.BEGINS: "begins"}
MORE = "More exist: type more."


def never_words(register: Register, reading: Reading) -> str:
    """That a serial number was never issued, and which were that are nearest."""
    series = reading.series
    named = f"{series.stamp.show(reading.number)}, {register.machines[series.machine].title}"
    run = nearest_run(series, reading.number)
    return f"{named}: never issued; the nearest are {numbers_words(run.first, run.last, series)}."


def match_words(register: Register, query: str, match: Match, lines: Sequence[Listed]) -> str:
    """A part number: whose it is, how it was found, and on which lines of parts lists it is."""
    part = match.key.part
    whose = register.makers.get(part.key.by, part.key.by)
    known = KNOWN[match.key.known].format(match.key.text)
    goes = ", ".join(dict.fromkeys(map(_goes, lines))) or "nothing recorded"
    how = HOW[match.how]
    if match.how is How.WORN and (read := read_as(query, match.key.text)):
        how = f"{how}, if {read_words(read)}"
    told = [f"{part.number}{known}, {part.name}, of {whose}; {how}. Goes in: {goes}."]
    return " ".join((*told, *match_remarks(register, part)))


def _goes(one: Listed) -> str:
    only = only_words(one)
    return f"{one.assembly.title} ({only})" if only else one.assembly.title


def document_words(document: Document) -> str:
    return f"{document.title} ({document.sort}): {document.address}"


def worn_words(answer: Answer) -> str:
    """The issued numbers that a worn stamp may have made of what was asked."""
    numbers = [reading.series.stamp.show(reading.number) for reading in answer.worn]
    also = " also" if any(reading.issued for reading in answer.readings) else ""
    pairs = dict.fromkeys(pair for number in numbers for pair in read_as(answer.query, number))
    return f"If {read_words(pairs)}, it may{also} be {listed(numbers, 'or')}: ask for that."


def loose_words(answer: Answer) -> str:
    """The issued numbers that it may be with their letters left out, or at the other end."""
    numbers = [reading.series.stamp.show(reading.number) for reading in answer.loose]
    return f"With the letters of its plate it may be {listed(numbers, 'or')}: ask for that."


def taken_words(word: str, others: Sequence[str]) -> str:
    """That nothing has a word as it was written, and which it was taken for."""
    return f"Nothing has “{word}” as it is written; this is for {listed(list(others[:MOST_TAKEN]), 'or')}."


def nothing_words(asker: Asker, query: str) -> str:
    """That nothing was found, and what to try."""
    return f"Nothing found for “{query}”. Try {'; '.join(suggestions(asker, query))}."


def suggestions(asker: Asker, query: str) -> tuple[str, ...]:
    """What to try when nothing was found."""
    stamped = "the letters and digits as stamped, with ? for one that cannot be read"
    answer = asker.ask(query)
    loose = (reading.series.stamp.show(reading.number) for reading in answer.loose)
    return stamped, *loose, *(f"“{word}” alone" for word in finding_alone(asker, query))
