"""What teardowns found in each place and of each assembly, and of which machine each teardown is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from spanbook.answers.readings import Reading, machine_of
from spanbook.answers.speaking import Speaking
from spanbook.ground.memo import Memo
from spanbook.reading.records import Find, Series, Teardown
from spanbook.register.model import Register
from spanbook.register.worn import MayBe, only

Found = tuple[Teardown, Find]


class Finds:
    """For one register: whatever is asked again is computed once."""

    def __init__(self, register: Register, speaking: Speaking) -> None:
        self.register = register
        self.speaking = speaking
        self.possible_at = Memo(self._possible_at)
        self.machine = Memo(self._machine)
        self._machine_at = Memo(self._at_position)
        self._at = Memo(self._found_at)
        self._of_assembly = Memo(self._found_as)

    def possible(self, teardown: Teardown) -> tuple[MayBe, ...]:
        """The issued numbers that a teardown's serial number may be, in its series if it names one."""
        return self.register.possible[teardown]

    def _possible_at(self, asked: tuple[Teardown, str]) -> tuple[MayBe, ...]:
        """The same, each as the number that tells of a position."""
        teardown, position = asked
        found = (self.speaking.asked_by(one, position) for one in self.possible(teardown))
        return tuple(may_be for each in found for may_be in each)

    def _machine(self, teardown: Teardown) -> Reading | None:
        """The one machine that a teardown's serial number is; None when it may be several, or none."""
        return self._only(self.possible(teardown))

    def machine_at(self, teardown: Teardown, position: str) -> Reading | None:
        """The same by the number that tells of a position."""
        return self._machine_at((teardown, position))

    def _at_position(self, asked: tuple[Teardown, str]) -> Reading | None:
        return self._only(self.possible_at(asked))

    def _only(self, found: Sequence[MayBe]) -> Reading | None:
        read = only(found)
        return machine_of(self.register, *read) if read else None

    def at(self, series: Series, position: str) -> Sequence[Found]:
        """What teardowns found at a position of machines that may be of a series, by any of their numbers."""
        return self._at((series.id, position))

    def _found_at(self, place: tuple[str, str]) -> tuple[Found, ...]:
        return tuple(_finds(self.register.seen_at.get(place, ()), place[1]))

    def of_assembly(self, id_: str, position: str) -> Sequence[Found]:
        """What teardowns found at a position and took to be an assembly."""
        return self._of_assembly((id_, position))

    def _found_as(self, asked: tuple[str, str]) -> tuple[Found, ...]:
        id_, position = asked
        found = _finds(self.register.found.get(id_, ()), position)
        return tuple(one for one in found if one[1].assembly == id_)


def _finds(teardowns: Iterable[Teardown], position: str) -> Iterator[Found]:
    return ((one, find) for one in teardowns for find in one.found if find.position == position)
