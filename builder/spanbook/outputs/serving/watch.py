"""What lies at some places, looked at over and over: a folder that goes is a change, and so is its return.

The system tells that something stirs, which wakes whoever waits; what has changed is found by looking, also
where the system tells nothing.
"""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Iterable, Iterator
from contextlib import suppress
from pathlib import Path
from threading import Event, Lock

from watchdog.events import FileSystemEvent, FileSystemEventHandler
from watchdog.observers import Observer

State = tuple[int, ...]
# Every file with what tells that it is another one now; a place that cannot be read with why.
Seen = frozenset[tuple[str, State]]
_PAUSE = 0.5  # seconds between two looks where nothing stirs
_SETTLED = 0.1  # an editor that saves, or a checkout, has ended when nothing changed for so long
_QUIET = 0.03  # and, as far as the system tells what stirs, when nothing did for so long
_LONGEST = 50  # such waits; something that never rests is not waited for
# What merely reads a file changes none.
_CHANGES = {"created", "modified", "moved", "deleted", "closed"}


class Watch(FileSystemEventHandler):
    """Waits for changes at some places; to be ended by whoever began it."""

    def __init__(self) -> None:
        self.places: tuple[Path, ...] = ()
        self.seen: Seen = frozenset()
        self._changing = Lock()
        self._stirred = Event()
        self._ended = False
        self._observer = Observer()
        self._observer.start()
        self._told_of: dict[Path, tuple[int, int]] = {}

    def on_any_event(self, event: FileSystemEvent) -> None:
        if event.event_type in _CHANGES:
            self._stirred.set()

    def attend(self, places: Iterable[Path]) -> None:
        """Wait for changes at these places from now on. What lies there now is `seen`."""
        every = tuple(places)
        if every != self.places:
            seen = look(every)
            with self._changing:
                self.places, self.seen = every, seen
            self._stirred.set()

    def end(self) -> None:
        """Whoever waits goes on at once."""
        self._ended = True
        self._stirred.set()
        self._observer.stop()
        self._observer.join()

    def changed(self) -> tuple[Seen, Seen] | None:
        """Wait until there is something else than what was seen, and until that has come to rest; what there
        was and what there is, or None at the end."""
        pause = 0.0  # what changed before the system was asked to tell is found by looking at once
        while True:
            self._listen(self.places)
            told = self._stirred.wait(pause)
            for _ in range(_LONGEST if told else 0):
                self._stirred.clear()
                if self._ended or not self._stirred.wait(_QUIET):
                    break
            if self._ended:
                return None
            started = time.monotonic()
            places = self.places
            now = look(places)
            # However many files there are, looking takes no more than a tenth of the time.
            pause = max(_PAUSE, 9 * (time.monotonic() - started))
            if now != self.seen:
                now = now if told else _rested(places, now)
                with self._changing:
                    if places is self.places:
                        before, self.seen = self.seen, now
                        return before, now

    def _listen(self, places: tuple[Path, ...]) -> None:
        """Have the system tell what stirs at the places, as far as it can: looking does for the rest."""
        found = {}
        for place in places:
            with suppress(OSError):
                folder = place if place.is_dir() else place.parent
                there = folder.stat()
                found[folder] = (there.st_dev, there.st_ino)
        if found != self._told_of:
            self._observer.unschedule_all()
            self._told_of = found
            for folder in found:
                with suppress(OSError):
                    self._observer.schedule(self, str(folder), recursive=folder in places)


def look(places: Iterable[Path]) -> Seen:
    return frozenset(found for place in places for found in _below(str(place)))


def _rested(places: tuple[Path, ...], now: Seen) -> Seen:
    for _ in range(_LONGEST):
        time.sleep(_SETTLED)
        before, now = now, look(places)
        if now == before:
            break
    return now


def _below(place: str) -> Iterator[tuple[str, State]]:
    """Links below a place are seen and not entered: they lead in circles, and out over the whole disk."""
    try:
        found = Path(place).stat()
    except OSError as failure:
        yield place, (failure.errno or 0,)
        return
    yield place, _state(found)
    waiting = [place] if stat.S_ISDIR(found.st_mode) else []
    while waiting:
        folder = waiting.pop()
        try:
            entries = list(os.scandir(folder))
        except OSError as failure:
            yield folder, (failure.errno or 0,)
            continue
        for entry in entries:
            # What editors and git keep beside the files is hidden.
            if entry.name.startswith("."):
                continue
            try:
                found = entry.stat()
            except OSError as failure:
                yield entry.path, (failure.errno or 0,)
                continue
            yield entry.path, _state(found)
            if stat.S_ISDIR(found.st_mode) and not entry.is_symlink():
                waiting.append(entry.path)


def _state(found: os.stat_result) -> State:
    return found.st_mtime_ns, found.st_size, found.st_ino, found.st_mode
