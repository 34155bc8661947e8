"""Values kept from one run to the next by Python's pickle, which runs what it is told to.

So never in the project, where a stranger's proposal could bring such a file, and never taken from a file that
others may write to or whose digest does not hold.
"""

from __future__ import annotations

import os
import pickle
import sys
import sysconfig
from collections.abc import Callable, Iterator
from copyreg import __newobj__  # type: ignore[attr-defined]
from dataclasses import fields, is_dataclass
from functools import cache
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from spanbook.reading import kept_files
from spanbook.reading.schemas import folder as schema_folder

_SEAL = sha256().digest_size
_PACKAGE = Path(__file__).parents[1]


@cache
def program() -> str:
    """Names the program that makes what is kept, to the byte: another might make another value."""
    digest = sha256(" ".join((sys.version, *packages())).encode())
    own = (*_PACKAGE.rglob("*.py"), *_PACKAGE.rglob("*.po"))
    for file in sorted([*own, *schema_folder().glob("*.json")]):
        digest.update(file.read_bytes())
    return digest.hexdigest()


def packages() -> Iterator[str]:
    """Every installed package by its version, as installers lay it down."""
    for folder in sorted({sysconfig.get_path("purelib"), sysconfig.get_path("platlib")}):
        yield from sorted(name for name in os.listdir(folder) if name.endswith(".dist-info"))  # noqa: PTH208


def take(file: Path) -> object:
    """What is kept in a file; None where there is nothing that can be trusted."""
    try:
        if not kept_files.ours_alone(file.stat()):
            return None
        data = kept_files.read(file)
        kept = memoryview(data)[_SEAL:]
        # What is damaged, cut off or another file's is not even looked into.
        return pickle.loads(kept) if data[:_SEAL] == seal(file, kept) else None
    except Exception:  # another program's pickle can raise anything at all; the value is made anew
        return None


def put(file: Path, value: object, most: int) -> None:
    """Keep a value, and of what lies beside it no more than so many bytes. Raises OSError."""
    with BytesIO() as made:
        _Pickler(made, pickle.HIGHEST_PROTOCOL).dump(value)
        with made.getbuffer() as kept:  # it may be large
            kept_files.put(file, seal(file, kept), kept)
    kept_files.trim(file.parent, most)


class _Pickler(pickle.Pickler):
    """Python's own, but for how a data class with slots is filled again: it looks up the fields of the class
    for every single value, which takes half as long again as all the rest."""

    def reducer_override(self, value: Any) -> Any:
        kind = type(value)
        if not is_dataclass(kind) or "__slots__" not in vars(kind):
            return NotImplemented
        held = tuple(getattr(value, field.name) for field in fields(kind))
        return __newobj__, (kind,), held, None, None, _fill


def _fill(made: Any, held: tuple[object, ...]) -> None:
    for put_in, value in zip(_slots(made.__class__), held, strict=True):
        put_in(made, value)


@cache
def _slots(kind: type) -> tuple[Callable[[object, object], None], ...]:
    """What puts a value into each field of a data class, also where it is frozen."""
    return tuple(getattr(kind, field.name).__set__ for field in fields(kind))


def seal(file: Path, kept: bytes | memoryview) -> bytes:
    """A digest of what is kept and of where."""
    digest = sha256(file.name.encode())
    digest.update(kept)
    return digest.digest()
