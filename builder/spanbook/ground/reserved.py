"""Names that a file or a folder of a site cannot have."""

from __future__ import annotations

# Windows keeps these for devices, whatever follows a dot: a clone there would fail or lose the file.
_DEVICES = {"con", "prn", "aux", "nul", *(f"com{n}" for n in range(10)), *(f"lpt{n}" for n in range(10))}
# An index or a readme is the page of the folder it stands in.
_PAGES = {"index", "readme"}


def is_device(name: str) -> bool:
    return _first_word(name) in _DEVICES


def is_reserved(name: str) -> bool:
    return is_device(name) or _first_word(name) in _PAGES


def _first_word(name: str) -> str:
    return name.partition(".")[0].lower()
