"""A content folder that is read again and again in one process: a file is opened where it has changed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from stat import S_ISREG

from spanbook.reading import Reading, read_tree
from spanbook.reading.files import Folder, Picture
from spanbook.reading.record_cache import Known, known_of

State = tuple[int, ...]


class Again:
    """What was read of a folder, by the state in which each file was found: its time, its size and the like.

    A file that did not change gives the very same record.
    """

    def __init__(self, folder: Folder, shown_as: str) -> None:
        self.folder = folder
        self.shown_as = shown_as
        self._known: Known | None = None
        self._held = _Held(folder)

    def read(self, states: Mapping[str, State], *, walk: bool = False) -> Reading:
        """All records, by the states that all files and folders below it are in, by their paths in it.

        The states were looked at before: what changes meanwhile is found the next time. What they leave out,
        as hidden folders, is found where the folder is to be walked over again.
        """
        self._held.look_at(states, walk)
        if self._known is None:
            with known_of(self.folder.path) as kept:
                read = read_tree(self._held, self.shown_as, kept)
            self._known = Known(kept.used)
            return read
        read = read_tree(self._held, self.shown_as, self._known)
        self._known = Known(self._known.used)
        return read


class _Held:
    """A folder of which the bytes are held as long as their files stay in one state."""

    def __init__(self, folder: Folder) -> None:
        self._folder = folder
        self._states: Mapping[str, State] = {}
        self._bytes: dict[str, tuple[State, bytes]] = {}
        self._others: frozenset[tuple[str, State]] = frozenset()
        self._yaml: tuple[tuple[str, bool], ...] = ()
        self._long: tuple[str, ...] = ()

    def yaml_files(self) -> Iterator[tuple[str, bool]]:
        return iter(self._yaml)

    def too_long(self) -> Iterator[str]:
        return iter(self._long)

    def pictures(self) -> Iterator[Picture]:
        return self._folder.pictures()

    def others(self) -> Iterator[str]:
        return self._folder.others()

    def read(self, relative: str, most: int) -> bytes:
        state = self._states.get(relative)
        held = self._bytes.get(relative)
        if held and held[0] == state:
            return held[1]
        data = self._folder.read(relative, most)
        if state is None:  # nobody has seen it yet
            self._bytes.pop(relative, None)
        else:
            self._bytes[relative] = state, data
        return data

    def look_at(self, states: Mapping[str, State], walk: bool) -> None:
        """Which files there are changes only with the state of a folder, or of what is neither."""
        self._states = states
        # The last of a state says whether it is a file.
        others = frozenset(one for one in states.items() if not S_ISREG(one[1][-1]))
        if walk or others != self._others:
            self._yaml, self._long = tuple(self._folder.yaml_files()), tuple(self._folder.too_long())
            self._others = others
            self._bytes = {path: held for path, held in self._bytes.items() if path in states}


def states_below(folder: str, seen: Iterable[tuple[str, State]]) -> dict[str, State]:
    """Of what was seen, a folder itself and what lies below it, by its path in it."""
    start = len(folder) + 1
    return {path[start:]: state for path, state in seen if f"{path}/".startswith(f"{folder}/")}
