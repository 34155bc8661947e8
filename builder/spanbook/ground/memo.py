"""Two ways to compute a thing when it is first asked for, and once: by a key, and for one object.

Where notes are taken, whoever asks has read what was computed, and that has read what it asked for itself.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Generic, TypeVar, overload

from spanbook.ground.notes import Notes, taken

K = TypeVar("K")
T = TypeVar("T")
V = TypeVar("V")


class Memo(dict[K, V]):
    """What a function gives for a key, kept from the first time. The function must always give the same.

    It is a dictionary, so that what is known already is found without a step of our own: half a million
    times in a build.
    """

    __slots__ = ("_compute",)

    def __new__(cls, *_: object) -> Memo[K, V]:
        notes = taken()
        return super().__new__(cls) if notes is None else dict.__new__(_Noted)

    def __init__(self, compute: Callable[[K], V]) -> None:
        super().__init__()
        self._compute = compute

    def __missing__(self, key: K) -> V:
        made = self[key] = self._compute(key)
        return made

    __call__ = dict.__getitem__


class _Noted(Memo[K, V]):
    """The same with notes of who asks what."""

    __slots__ = ("_notes", "_open", "_steps")

    def __init__(self, compute: Callable[[K], V]) -> None:
        super().__init__(compute)
        self._notes = _sure(taken())
        self._open = self._notes.open
        self._steps: dict[K, int] = {}

    def __getitem__(self, key: K) -> V:
        made = dict.__getitem__(self, key)
        self._open[-1].add(self._steps[key])
        return made

    def __missing__(self, key: K) -> V:
        self._notes.begin()
        try:
            made = self[key] = self._compute(key)
        finally:
            self._steps[key] = self._notes.done()
        return made

    __call__ = __getitem__


class Followed(Generic[K, V]):
    """What is kept by whoever follows things by a stack of his own: he begins each of them and says when it
    is done, the last begun first, and keeps those that hold wherever they are asked for."""

    def __init__(self) -> None:
        self._values: dict[K, V] = {}
        self._steps: dict[K, int] = {}
        self._notes = taken()

    def get(self, key: K) -> V | None:
        found = self._values.get(key)
        if found is not None and self._notes is not None:
            self._notes.saw(self._steps[key])
        return found

    def begin(self) -> None:
        if self._notes is not None:
            self._notes.begin()

    def done(self, key: K, value: V, *, keep: bool) -> None:
        """Whoever has begun the next below has read it."""
        if keep:
            self._values[key] = value
        if self._notes is not None:
            step = self._notes.done()
            self._notes.saw(step)
            if keep:
                self._steps[key] = step


class kept(Generic[T]):  # noqa: N801 - it stands where a property does
    """A property computed when it is first asked for, like `functools.cached_property`, and noted."""

    def __init__(self, compute: Callable[[Any], T]) -> None:
        self._compute = compute
        self.__doc__ = compute.__doc__

    def __set_name__(self, owner: type, name: str) -> None:
        self._name = name
        self._noted = f"{name}:noted"

    @overload
    def __get__(self, instance: None, owner: type) -> kept[T]: ...
    @overload
    def __get__(self, instance: object, owner: type) -> T: ...
    def __get__(self, instance: object | None, owner: type) -> T | kept[T]:
        if instance is None:
            return self
        notes = taken()
        if notes is None:
            # From now on the object's own value stands before this one.
            vars(instance)[self._name] = value = self._compute(instance)
            return value
        held = vars(instance)
        # What another build has noted of an object that outlives it says nothing here.
        if self._noted not in held or held[self._noted][2] is not notes:
            notes.begin()
            try:
                value = self._compute(instance)
            finally:
                number = notes.done()
            held[self._noted] = value, number, notes
        made: tuple[T, int, Notes] = held[self._noted]
        notes.saw(made[1])
        return made[0]


def _sure(notes: Notes | None) -> Notes:
    assert notes is not None, "it is made only where notes are taken"
    return notes
