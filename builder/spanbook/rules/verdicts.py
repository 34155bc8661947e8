"""What the rules found in the very same records before, kept in the user's cache.

One side of a comparison is mostly what was judged at the last one. Kept by the bytes of all files, by the
program and by the language in which problems are told.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

from spanbook.ground.language import voice
from spanbook.reading import kept_files, sealed
from spanbook.reading.problems import Problem, errors

_MOST_KEPT = 100_000_000  # bytes, of all projects


def every_problem(digest: str, find: Callable[[], Iterable[Problem]]) -> tuple[Problem, ...]:
    """All that the rules find in records with a digest; `find` asks them."""
    found = _before(_file(digest, "all"))
    return _found(_file(digest, "all"), find) if found is None else found


def every_error(digest: str, find: Callable[[], Iterable[Problem]]) -> tuple[Problem, ...]:
    """The errors alone; `find` asks no other rules."""
    if (found := _before(_file(digest, "all"))) is not None:
        return errors(found)
    found = _before(_file(digest, "errors"))
    return _found(_file(digest, "errors"), find) if found is None else found


def _file(digest: str, which: str) -> Path:
    by = " ".join((sealed.program(), voice(), which, digest))
    return kept_files.folder("verdicts") / f"{sha256(by.encode()).hexdigest()}.pickle"


def _before(file: Path) -> tuple[Problem, ...] | None:
    found = sealed.take(file)
    return found if isinstance(found, tuple) else None


def _found(file: Path, find: Callable[[], Iterable[Problem]]) -> tuple[Problem, ...]:
    found = tuple(find())
    with suppress(OSError):  # where nothing can be kept they are asked again
        sealed.put(file, found, _MOST_KEPT)
    return found
