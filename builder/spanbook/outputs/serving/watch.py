"""What lies at some places, looked at over and over: a folder that goes is a change, and so is its return."""

from __future__ import annotations

import os
import stat
import time
from collections.abc import Iterable, Iterator
from pathlib import Path

# Every file with what tells that it is another one now; a place that cannot be read with why.
Seen = frozenset[tuple[str, tuple[int, ...]]]
_PAUSE = 0.5  # seconds between two looks
_SETTLED = 0.1  # an editor that saves, or a checkout, has ended when nothing changed for so long
_LONGEST = 50  # such waits; something that never rests is not waited for


def look(places: Iterable[Path]) -> Seen:
    return frozenset(found for place in places for found in _below(str(place)))


def changed(places: Iterable[Path], seen: Seen) -> Seen:
    """Wait until there is something else than what was seen, and until that has come to rest."""
    every = tuple(places)
    while True:
        started = time.monotonic()
        now = look(every)
        if now != seen:
            return _rested(every, now)
        # However many files there are, looking takes no more than a tenth of the time.
        time.sleep(max(_PAUSE, 9 * (time.monotonic() - started)))


def _rested(places: tuple[Path, ...], now: Seen) -> Seen:
    for _ in range(_LONGEST):
        time.sleep(_SETTLED)
        before, now = now, look(places)
        if now == before:
            break
    return now


def _below(place: str) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Links below a place are seen and not entered: they lead in circles, and out over the whole disk."""
    waiting = [place]
    while waiting:
        path = waiting.pop()
        try:
            found = Path(path).stat()
            yield path, (found.st_mtime_ns, found.st_size, found.st_ino, found.st_mode)
            entered = stat.S_ISDIR(found.st_mode) and (path == place or not Path(path).is_symlink())
            names = os.listdir(path) if entered else []  # noqa: PTH208 - many, and often
        except OSError as failure:
            yield path, (failure.errno or 0,)
            continue
        # What editors and git keep beside the files is hidden.
        waiting += [f"{path}/{name}" for name in names if not name.startswith(".")]
