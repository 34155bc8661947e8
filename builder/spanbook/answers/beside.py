"""A serial number and words in one query: which machine, and which of its positions the words name."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from spanbook.answers.answers import Answers
from spanbook.answers.readings import Reading, loosely, read_serial
from spanbook.answers.this_machine import ThisPosition
from spanbook.answers.together import machines_in
from spanbook.ground.matching import UNREADABLE, words
from spanbook.register.model import Register


@dataclass(frozen=True, slots=True)
class Beside:
    """The machines of a query, or those that they may be with letters left out, and the words beside."""

    readings: tuple[Reading, ...]
    loose: tuple[Reading, ...]
    words: str


def beside(register: Register, text: str) -> Beside | None:
    """A query taken apart: as much of its beginning, or else of its end, as reads as an issued number.

    None where all of it reads as numbers, or where no part does.
    """
    if UNREADABLE in text or machines_in(register, text):
        return None
    pieces = text.split()
    cuts = range(len(pieces) - 1, 0, -1)
    ways = [
        *((pieces[:at], pieces[at:]) for at in cuts),
        *((pieces[len(pieces) - at :], pieces[: len(pieces) - at]) for at in cuts),
    ]
    for serial, rest in ways:
        issued = tuple(one for one in read_serial(register, " ".join(serial)) if one.issued)
        if issued:
            return Beside(issued, (), " ".join(rest))
    for serial, rest in ways:
        # Beside other digits it is no machine: `5/16 18` is a size.
        if not any(c.isdecimal() for c in " ".join(rest)) and (loose := loosely(register, " ".join(serial))):
            return Beside((), loose, " ".join(rest))
    return None


def places_named(
    answers: Answers, readings: Iterable[Reading], text: str
) -> Iterator[tuple[Reading, ThisPosition]]:
    """The positions of machines whose titles have a word for each asked, in its order."""
    asked = words(text)

    def named(position: str) -> bool:
        title = words(answers.register.positions[position].title)
        return all(any(word.startswith(one) for word in title) for one in asked)

    for reading in readings:
        machine = answers.register.machines[reading.series.machine]
        if any(map(named, answers.fits.positions(machine))):
            known = answers.machines.of(reading)
            yield from ((reading, place) for place in known.positions if named(place.position))
