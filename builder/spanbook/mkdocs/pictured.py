"""Pictures that were saved since a site was built, and those that its records show only now."""

from __future__ import annotations

from collections.abc import Collection, Iterable
from dataclasses import replace
from pathlib import Path

from spanbook.reading.files import DRAWINGS, PHOTOGRAPHS
from spanbook.reading.records import Record
from spanbook.site.common import Site
from spanbook.site.drawings import drawings_of, drawn
from spanbook.site.photographs import developed, photographs_of

Picture = Path | bytes  # where it is kept, or itself


def pictured(
    site: Site, edited: Iterable[Record], saved: Collection[str], content: Path
) -> tuple[Site, dict[str, Picture]]:
    """The site with the pictures of edited records, and others of those `saved` by their paths in the content
    folder; and what was made of them, by address. The same site where there is none.

    Raises as `developed` and `drawn`.
    """
    records = tuple(edited)
    taken = {name for name in site.shelf if f"{PHOTOGRAPHS}{name}" in saved}
    shelf, photographs = developed(sorted(taken | (photographs_of(records) - site.shelf.keys())), content)
    redrawn = {name for name in site.album if f"{DRAWINGS}{name}" in saved}
    album, drawings = drawn(sorted(redrawn | (drawings_of(records) - site.album.keys())), content)
    if not shelf and not album:
        return site, {}
    return replace(site, shelf={**site.shelf, **shelf}, album={**site.album, **album}), {
        **photographs,
        **drawings,
    }
