"""What is found for a query, in words."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from spanbook.answers.by_words import Document
from spanbook.answers.listed import Listed, replaced_by
from spanbook.answers.readings import Reading
from spanbook.answers.search import Answer, Asker, How, Known, Match, nearest_run
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.ground.matching import read_as
from spanbook.ground.punctuation import labelled, parted
from spanbook.register.model import Part, Register
from spanbook.wording.finder import MOST_TAKEN, read_words
from spanbook.wording.grammar import listed
from spanbook.wording.lines import only_words
from spanbook.wording.numbers import match_remarks
from spanbook.wording.spans import numbers_words

KNOWN = {
    Known.NUMBER: "",
    Known.ALSO: marked("which also goes by {}"),
    Known.MISPRINT: marked("{} is a misprint for it"),
    Known.FORMER: marked("recorded as {} before"),
    Known.MARK: marked("mark {}"),
}
HOW = {
    How.EXACT: marked("exact"),
    How.SPACING: marked("spacing"),
    How.WORN: marked("worn"),
    How.BEGINS: marked("begins"),
    How.ENDS: marked("ends so, if what stands before it is gone"),
}


def more_words() -> str:
    """That there are more numbers than are told."""
    return _("More exist: type more.")


def never_words(register: Register, reading: Reading) -> str:
    """That a serial number was never issued, and which were that are nearest."""
    series = reading.series
    named = f"{series.stamp.show(reading.number)}, {register.machines[series.machine].title}"
    run = nearest_run(series, reading.number)
    nearest = numbers_words(run.first, run.last, series)
    return _("{number}: never issued; the nearest are {nearest}.").format(number=named, nearest=nearest)


def match_words(register: Register, query: str, match: Match, lines: Sequence[Listed]) -> str:
    """A part number: whose it is, how it was found, and on which lines of parts lists it is."""
    part = match.key.part
    whose = register.makers.get(part.key.by, part.key.by)
    known = _(KNOWN[match.key.known]).format(match.key.text)
    goes = ", ".join(dict.fromkeys((*map(_goes, lines), *_in_place(register, part, lines))))
    how = _(HOW[match.how])
    if match.how is How.WORN and (read := read_as(query, match.key.text)):
        how = _("{how}, if {read}").format(how=how, read=read_words(read))
    message = (
        _("{number}, {name}, of {owner}; {how}. Goes in: {goes}.")
        if goes or not part.whole
        else _("{number}, {name}, of {owner}; {how}.")
    )
    told = message.format(
        number=f"{part.number} ({known})" if known else part.number,
        name=part.name,
        owner=whose,
        how=how,
        goes=goes or _("nothing recorded"),
    )
    whole = (_("It is the number of the whole: {assembly}.").format(assembly=one.title) for one in part.whole)
    return " ".join((told, *whole, *match_remarks(register, part)))


def _in_place(register: Register, part: Part, lines: Sequence[Listed]) -> Iterator[str]:
    """Where those numbers go that it replaces, but where it is itself in the list."""
    told = {one.assembly.id for one in lines}
    for old in replaced_by(register, part):
        for assembly in dict.fromkeys(use.assembly for use in old.uses):
            if assembly.id not in told:
                said = _("{assembly} (in place of {number})")
                yield said.format(assembly=assembly.title, number=old.number)


def _goes(one: Listed) -> str:
    only = only_words(one)
    return f"{one.assembly.title} ({only})" if only else one.assembly.title


def document_words(document: Document) -> str:
    return labelled(f"{document.title} ({document.sort})", document.address)


def worn_words(answer: Answer) -> str:
    """The issued numbers that a worn stamp may have made of what was asked."""
    numbers = [reading.series.stamp.show(reading.number) for reading in answer.worn]
    pairs = dict.fromkeys(pair for number in numbers for pair in read_as(answer.query, number))
    told = (
        _("If {read}, it may also be {numbers}: ask for that.")
        if any(reading.issued for reading in answer.readings)
        else _("If {read}, it may be {numbers}: ask for that.")
    )
    return told.format(read=read_words(pairs), numbers=listed(numbers, "or"))


def loose_words(answer: Answer) -> str:
    """The issued numbers that it may be with their letters left out, or at the other end."""
    numbers = [reading.series.stamp.show(reading.number) for reading in answer.loose]
    told = _("With the letters of its plate it may be {}: ask for that.")
    return told.format(listed(numbers, "or"))


def taken_words(word: str, others: Sequence[str]) -> str:
    """That nothing has a word as it was written, and which it was taken for."""
    told = _("Nothing has “{word}” as it is written; this is for {others}.")
    return told.format(word=word, others=listed(list(others[:MOST_TAKEN]), "or"))


def nothing_words(asker: Asker, query: str) -> str:
    """That nothing was found, and what to try."""
    tries = parted(*suggestions(asker, query))
    return _("Nothing found for “{query}”. Try {tries}.").format(query=query, tries=tries)


def suggestions(asker: Asker, query: str) -> tuple[str, ...]:
    """What to try when nothing was found."""
    stamped = _("the letters and digits as stamped, with ? for one that cannot be read")
    answer = asker.ask(query)
    loose = (reading.series.stamp.show(reading.number) for reading in answer.loose)
    return stamped, *loose, *(_("“{}” alone").format(word) for word in answer.alone)
