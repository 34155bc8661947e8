"""A sitemap that is too large for one file, in pieces, with an index of them where it stood.

By the Sitemap protocol 0.9 (sitemaps.org/protocol.html, from memory): at most 50,000 addresses and 52,428,800
bytes a file, and an index names its files by whole addresses in its own folder or below.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from pathlib import Path
from xml.sax.saxutils import escape

NAME = "sitemap.xml"
MOST_ADDRESSES = 50_000
MOST_BYTES = 52_428_800
_SPACE = 'xmlns="http://www.sitemaps.org/schemas/sitemap/0.9"'
_HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n'
_ENTRY = re.compile(r"<url>.*?</url>", re.DOTALL)
_DAY = re.compile(r"<lastmod>(.*?)</lastmod>")


def lay(whole: str, site: str, folder: Path) -> str:
    """What goes into the sitemap's own file, with its pieces laid beside it; see `cut`."""
    made = cut(whole, site)
    for name in made.keys() - {NAME}:
        (folder / name).write_text(made[name], encoding="utf-8")
    return made[NAME]


def cut(whole: str, site: str, addresses: int = MOST_ADDRESSES, most: int = MOST_BYTES) -> dict[str, str]:
    """The files that a sitemap becomes, by name; itself alone where it is small enough.

    `site` is the address that the site lies at, with a slash at its end.
    """
    entries = _ENTRY.findall(whole)
    if len(entries) <= addresses and len(whole.encode()) <= most:
        return {NAME: whole}
    made = {f"sitemap-{i}.xml": piece for i, piece in enumerate(_pieces(entries, addresses, most), 1)}
    listed = "".join(
        f"<sitemap><loc>{escape(site)}{name}</loc>{_newest(piece)}</sitemap>\n"
        for name, piece in made.items()
    )
    return {NAME: f"{_HEAD}<sitemapindex {_SPACE}>\n{listed}</sitemapindex>\n", **made}


def _pieces(entries: Iterable[str], addresses: int, most: int) -> Iterator[str]:
    held: list[str] = []
    size = room = most - len(_piece([]).encode())
    for entry in entries:
        length = len(entry.encode()) + 1
        if held and (len(held) == addresses or length > size):
            yield _piece(held)
            held, size = [], room
        held.append(entry)
        size -= length
    yield _piece(held)


def _piece(entries: list[str]) -> str:
    return "\n".join([f"{_HEAD}<urlset {_SPACE}>", *entries, "</urlset>", ""])


def _newest(piece: str) -> str:
    """The day of the page that changed last."""
    days = _DAY.findall(piece)
    return f"<lastmod>{max(days)}</lastmod>" if days else ""
