"""What a site was made from, kept in the user's own cache: whether it has to be made again.

Believed only while its own digest holds, nobody else may write to it, and every file of the site is as the
build left it.
"""

from __future__ import annotations

import json
import os
from collections.abc import Callable
from contextlib import suppress
from dataclasses import asdict, dataclass
from hashlib import sha256
from pathlib import Path

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
    under which its parts are kept, `made_from` the places of the inputs.
    """

    pages: int
    size: Size
    state: str
    warnings: tuple[str, ...] = ()
    inputs: str = ""
    parts: str = ""
    made_from: tuple[str, ...] = ()


def left(place: Path, of: Callable[[Made], bool] = lambda made: True) -> Made | None:
    """The site in a settled place if it is as a build has left it there, and such a one; None on any doubt.

    Raises OSError where the site cannot be looked at.
    """
    kept = _taken(_file(place))
    # Beside the root of a disk there is no workshop, and nothing was ever kept of it.
    if kept is None or not place.is_dir() or workshop.workshop_of(place).exists():
        return None
    site, made = kept
    return made if of(made) and site == with_mark(place, state_of(place)) else None


def note(place: Path, made: Made) -> None:
    """Keep what a site was made from; nothing where its inputs are not known."""
    file = _file(place)
    with suppress(OSError):  # where nothing can be kept the next time is slower, and nothing else
        file.unlink(missing_ok=True)
        if made.inputs:
            data = json.dumps({"site": with_mark(place, made.state), **asdict(made)}).encode()
            kept_files.put(file, _seal(file, data) + data)
            kept_files.trim(file.parent, _MOST_KEPT)


def _file(place: Path) -> Path:
    return kept_files.folder("ledgers") / sha256(os.fsencode(place)).hexdigest()


def _taken(file: Path) -> tuple[str, Made] | None:
    """The state of a site, and how it was made."""
    with suppress(OSError, ValueError, LookupError, TypeError):  # what another program kept it for itself
        if kept_files.ours_alone(file.stat()):
            held = kept_files.read(file)
            if held[:_SEAL] == _seal(file, held[_SEAL:]):
                found = json.loads(held[_SEAL:])
                found |= {name: tuple(found[name]) for name in ("warnings", "made_from")}
                return found.pop("site"), Made(**found | {"size": Size(**found["size"])})
    return None


def _seal(file: Path, data: bytes) -> bytes:
    return sha256(file.name.encode() + data).digest()
