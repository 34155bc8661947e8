"""What teardowns found at each position, and of which machine each teardown is."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.speaking import Speaking
from spanbook.answers.worn import MayBe, Stamps, beginning, only
from spanbook.ground.memo import Memo
from spanbook.reading.records import Find, Series, Teardown
from spanbook.register.model import Register


class Finds:
    """For one register: whatever is asked again is computed once."""

    def __init__(self, register: Register, speaking: Speaking) -> None:
        self.register = register
        self.speaking = speaking
        self._stamps = Stamps(register)
        self.possible = Memo(self._possible)
        self.possible_at = Memo(self._possible_at)
        self.machine = Memo(self._machine)
        self._machine_at = Memo(self._at_position)

    def _possible(self, teardown: Teardown) -> tuple[MayBe, ...]:
        """The issued numbers that a teardown's serial number may be, in its series if it names one."""
        found = self._stamps.possible(teardown.serial)
        return tuple(m for m in found if teardown.series in (None, m.series.id))

    def _possible_at(self, asked: tuple[Teardown, str]) -> tuple[MayBe, ...]:
        """The same, each as the number that tells of a position."""
        teardown, position = asked
        found = (self.speaking.asked_by(one, position) for one in self.possible(teardown))
        return tuple(may_be for each in found for may_be in each)

    def _machine(self, teardown: Teardown) -> Reading | None:
        """The one machine that a teardown's serial number is; None when it may be several, or none."""
        return self._of(self.possible(teardown))

    def machine_at(self, teardown: Teardown, position: str) -> Reading | None:
        """The same by the number that tells of a position."""
        return self._machine_at((teardown, position))

    def _at_position(self, asked: tuple[Teardown, str]) -> Reading | None:
        return self._of(self.possible_at(asked))

    def _of(self, found: Sequence[MayBe]) -> Reading | None:
        read = only(found)
        return machine_of(self.register, *read) if read else None

    def perhaps_of(self, series: Series) -> Iterator[Teardown]:
        """The teardowns whose serial number begins as one of a series: all of it, and some others."""
        for begun, teardowns in self._begun.items():
            if series.stamp.may_begin(begun):
                yield from teardowns

    @cached_property
    def _begun(self) -> Mapping[str, list[Teardown]]:
        found: defaultdict[str, list[Teardown]] = defaultdict(list)
        for teardown in self.register.teardowns.values():
            found[beginning(teardown.serial)].append(teardown)
        return found

    def at(self, position: str) -> Sequence[tuple[Teardown, Find]]:
        """What teardowns found at a position."""
        return self._at.get(position, ())

    @cached_property
    def _at(self) -> Mapping[str, list[tuple[Teardown, Find]]]:
        found: dict[str, list[tuple[Teardown, Find]]] = {}
        for teardown in self.register.teardowns.values():
            for find in teardown.found:
                found.setdefault(find.position, []).append((teardown, find))
        return found
