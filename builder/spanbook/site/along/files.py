"""What a copy of the site consists of: every file with its size and digest, and the state they tell of."""

from __future__ import annotations

import json
from collections.abc import Iterable

FOLDER = "assets/along/"
PICTURES = "assets/pictures/"
LIST = f"{FOLDER}files.json"
HELD = f"{FOLDER}held.js"
WORKER = "along-worker.js"
# What pages are made of. The files of data, and what search engines ask for, are for programs.
_SHOWN = (
    *(".html", ".css", ".js", ".webmanifest"),
    *(".gif", ".ico", ".jpeg", ".jpg", ".png", ".svg", ".webp"),
    *(".woff", ".woff2"),
)


def wanted(address: str) -> bool:
    """Whether a copy needs a file; the pictures by which pages are shared are for those who have no copy."""
    ours = address != WORKER and not address.startswith((".", PICTURES))
    return ours and address.endswith(_SHOWN)


def listed(files: Iterable[tuple[str, int, str]], state: str, told: str) -> bytes:
    """The list that the page reads: each file by its address, its bytes, and a digest of them.

    `state` is that of the tables, `told` says of which day the records are.
    """
    made = {"state": state, "told": told, "files": sorted(one for one in files if wanted(one[0]))}
    return json.dumps(made, ensure_ascii=False, separators=(",", ":")).encode()
