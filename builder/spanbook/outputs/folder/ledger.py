"""What a site was made from, kept in the user's own cache: whether it has to be made again.

Believed only while its own digest holds, nobody else may write to it, and every file of the site is as the
build left it.
"""

from __future__ import annotations

import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from spanbook.ground.hosts import Size
from spanbook.outputs.folder import workshop
from spanbook.outputs.folder.state import state_of, with_mark
from spanbook.reading import kept_files

_MOST_KEPT = 10_000_000  # bytes, some thousands of sites
_SEAL = sha256().digest_size


@dataclass(frozen=True, slots=True)
class Made:
    """A site that was built: how many pages it has, how large it is, and what it was warned of meanwhile.

    `state` tells it from any other, `inputs` is the digest of all that it was made from, `parts` the name
    under which its parts are kept.
    """

    pages: int
    size: Size
    state: str
    warnings: tuple[str, ...] = ()
    inputs: str = ""
    parts: str = ""


def left(place: Path) -> Made | None:
    """The site in a settled place if it is as a build has left it there; None on any doubt.

    Raises OSError where the site cannot be looked at.
    """
    if not place.is_dir() or workshop.workshop_of(place).exists():
        return None
    kept = _taken(_file(place))
    if kept is None or kept.pop("site") != with_mark(place, state_of(place)):
        return None
    return Made(**kept | {"size": Size(**kept["size"]), "warnings": tuple(kept["warnings"])})


def note(place: Path, made: Made) -> None:
    """Keep what a site was made from; nothing where its inputs are not known."""
    file = _file(place)
    with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
        file.unlink(missing_ok=True)
        if made.inputs:
            kept = {"site": with_mark(place, made.state), **asdict(made)}
            data = json.dumps(kept).encode()
            kept_files.put(file, _seal(file, data) + data)
            kept_files.trim(file.parent, _MOST_KEPT)


def _file(place: Path) -> Path:
    return kept_files.folder("ledgers") / sha256(os.fsencode(place)).hexdigest()


def _taken(file: Path) -> dict[str, Any] | None:
    with suppress(OSError, ValueError):
        if kept_files.ours_alone(file.stat()):
            held = kept_files.read(file)
            if held[:_SEAL] == _seal(file, held[_SEAL:]):
                found: dict[str, Any] = json.loads(held[_SEAL:])
                return found
    return None


def _seal(file: Path, data: bytes) -> bytes:
    return sha256(file.name.encode() + data).digest()
