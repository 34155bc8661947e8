"""What shares are made from as one file, called by its digest, for whoever makes them.

The records travel, and are linked where they arrive: what was worked out of them is worked out there again.
"""

from __future__ import annotations

import pickle
from dataclasses import dataclass, replace
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from types import MappingProxyType
from typing import Any

from spanbook.answers.answers import Answers
from spanbook.ground.language import speak, spoken
from spanbook.press.work import Work
from spanbook.reading import kept_files
from spanbook.register.link import build
from spanbook.site.common import Site

_MOST_KEPT = 1_000_000_000  # bytes, some ten large sites
_ANSWERS = "answers"


@dataclass(frozen=True, slots=True)
class Freight:
    """`data` are called by `name`, and taken by no other."""

    name: str
    data: bytes


class _Pickler(pickle.Pickler):
    """Leaves out the answers, which are made anew from the records."""

    def persistent_id(self, value: object) -> str | None:
        return _ANSWERS if isinstance(value, Answers) else None

    def reducer_override(self, value: object) -> Any:
        if isinstance(value, MappingProxyType):
            return MappingProxyType, (dict(value),)
        return NotImplemented


class _Unpickler(pickle.Unpickler):
    answers: Answers

    def persistent_load(self, name: object) -> Answers:
        assert name == _ANSWERS, "nothing else is left out"
        return self.answers


def pack(work: Work) -> Freight:
    site, into = work.site, BytesIO()
    pickler = _Pickler(into, pickle.HIGHEST_PROTOCOL)
    pickler.dump((spoken(), site.register.records, site.answers.assumed))
    # Of what the site has worked out nothing goes along.
    bare = Site(site.answers, site.shelf, site.album, site.releases)
    pickler.dump(replace(work, site=bare, noting=None, before={}))
    data = into.getvalue()
    return Freight(sha256(data).hexdigest(), data)


def unpack(freight: Freight) -> Work:
    """Raises ValueError for what is not called so: it is not even looked into."""
    if sha256(freight.data).hexdigest() != freight.name:
        raise ValueError(f"{freight.name} is not the digest of these bytes")
    unpickler = _Unpickler(BytesIO(freight.data))
    language, records, assumed = unpickler.load()
    speak(language)
    unpickler.answers = Answers(build(records), lambda: assumed)
    work: Work = unpickler.load()
    return work


def keep(freight: Freight) -> None:
    """For every process of this user on this machine. Raises OSError."""
    file = _file(freight.name)
    kept_files.put(file, freight.data)
    kept_files.trim(file.parent, _MOST_KEPT)


def kept(name: str) -> Freight | None:
    """What was kept, if it is here; whoever takes it holds it to its name."""
    try:
        return Freight(name, kept_files.read(_file(name)))
    except OSError:
        return None


def let_go(name: str) -> None:
    _file(name).unlink(missing_ok=True)


def _file(name: str) -> Path:
    return kept_files.folder("shares") / name
