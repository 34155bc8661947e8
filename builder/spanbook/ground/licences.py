"""Licences that data is often given under, by their SPDX identifiers (licence list 3.27; from memory)."""

from __future__ import annotations

import re
from dataclasses import dataclass

_ID = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9.+-]{0,58}[A-Za-z0-9+])?")
_CREATIVE = "https://creativecommons.org/"
_KNOWN = {
    "CC0-1.0": ("Creative Commons Zero 1.0 Universal", f"{_CREATIVE}publicdomain/zero/1.0/"),
    "CC-BY-4.0": ("Creative Commons Attribution 4.0 International", f"{_CREATIVE}licenses/by/4.0/"),
    "CC-BY-SA-4.0": (
        "Creative Commons Attribution-ShareAlike 4.0 International",
        f"{_CREATIVE}licenses/by-sa/4.0/",
    ),
    "CC-BY-NC-4.0": (
        "Creative Commons Attribution-NonCommercial 4.0 International",
        f"{_CREATIVE}licenses/by-nc/4.0/",
    ),
    "ODbL-1.0": (
        "Open Data Commons Open Database License 1.0",
        "https://opendatacommons.org/licenses/odbl/1-0/",
    ),
    "ODC-By-1.0": (
        "Open Data Commons Attribution License 1.0",
        "https://opendatacommons.org/licenses/by/1-0/",
    ),
    "PDDL-1.0": (
        "Open Data Commons Public Domain Dedication and License 1.0",
        "https://opendatacommons.org/licenses/pddl/1-0/",
    ),
}


@dataclass(frozen=True, slots=True)
class Licence:
    """`id` is the SPDX identifier, `address` where its text is."""

    id: str
    title: str
    address: str


OFTEN = tuple(_KNOWN)


def licence_of(id_: str) -> Licence | None:
    """A licence by its identifier, however its letters are; None for what cannot be one.

    One that is not known here is called by its identifier, with its page in the SPDX list.
    """
    known = next((one for one in _KNOWN if one.casefold() == id_.casefold()), None)
    if known:
        return Licence(known, *_KNOWN[known])
    return Licence(id_, id_, f"https://spdx.org/licenses/{id_}.html") if _ID.fullmatch(id_) else None
