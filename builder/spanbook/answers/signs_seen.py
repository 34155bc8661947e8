"""What teardowns saw of signs, and what that does to what is recorded of the things they were seen on."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from spanbook.answers.named import GOOD
from spanbook.answers.reasons import Reason, ShowedSign, Weight
from spanbook.ground.memo import Memo
from spanbook.reading.nodes import Step
from spanbook.reading.records import Assembly, Find, PartRecord, Shown, SignSeen, Teardown
from spanbook.register.model import Register
from spanbook.register.statements import Shows


@dataclass(frozen=True, slots=True, eq=False)
class SeenOn:
    """A sign that somebody saw, its place in the teardown, and the things that it may have been seen on:
    none where no record has the thing."""

    teardown: Teardown
    find: Find
    at: tuple[Step, ...]
    seen: SignSeen
    things: tuple[Assembly | PartRecord, ...]

    def recorded(self, thing: Assembly | PartRecord) -> Shown | None:
        """What a thing is recorded to show of the sign."""
        return next((one for one in thing.signs if one.sign == self.seen.sign), None)

    @property
    def otherwise(self) -> bool:
        """Whether it is recorded of every thing that it may have been, and of none as it was seen."""
        shown = [self.recorded(thing) for thing in self.things]
        return bool(shown) and all(one and self.seen.seen not in one.every for one in shown)


def signs_seen(register: Register) -> Iterator[SeenOn]:
    """Every sign that teardowns say was seen."""
    for teardown in register.teardowns.values():
        yield from _seen_by(register, teardown)


def _seen_by(register: Register, teardown: Teardown) -> Iterator[SeenOn]:
    for i, find in enumerate(teardown.found):
        yield from seen_in(register, teardown, find, ("found", i))


def seen_in(
    register: Register, teardown: Teardown, find: Find, at: tuple[Step, ...] = ()
) -> Iterator[SeenOn]:
    """Every sign that a find says was seen."""
    for i, seen in enumerate(find.signs):
        yield SeenOn(teardown, find, (*at, "signs", i), seen, tuple(_things(register, teardown, find, seen)))


def _things(
    register: Register, teardown: Teardown, find: Find, seen: SignSeen
) -> Iterator[Assembly | PartRecord]:
    if seen.number:
        key = register.numbering.of(teardown, None, seen.number, seen.means)
        part = register.parts.get(key)
        if part and part.record:
            yield part.record
    else:
        yield from (register.assemblies[id_] for id_ in find.named if id_ in register.assemblies)


class SignsSeen:
    """What was seen on each thing."""

    def __init__(self, register: Register) -> None:
        self.register = register
        self._on = Memo(self._seen_on)

    def _seen_on(self, thing: Assembly | PartRecord) -> tuple[SeenOn, ...]:
        """Every sign that was seen on a thing and on nothing else."""
        if isinstance(thing, Assembly):
            looked = self.register.perhaps_found.get(thing.id, ())
        else:
            looked = self.register.parts[self.register.key_of_record(thing)].teardowns
        every = (one for teardown in looked for one in _seen_by(self.register, teardown))
        return tuple(one for one in every if one.things == (thing,))

    def bearing(self, subject: Shows) -> Iterator[Reason]:
        """What was seen speaks for what is recorded, or against it.

        On what was changed since it was made it tells nothing of how it was.
        """
        for one in self._on(subject.record):
            if one.seen.sign == subject.shown.sign:
                same = Weight.SEEN if one.seen.seen in subject.shown.every else Weight.AGAINST
                weight = same if one.find.condition in GOOD else Weight.SET_ASIDE
                yield Reason(weight, one.teardown, None, ShowedSign(one.seen.seen, one.find.condition))
