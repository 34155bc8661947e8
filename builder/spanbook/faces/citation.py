"""How the records of a project are cited, for forges and archives: Citation File Format 1.2.0."""

from __future__ import annotations

from collections.abc import Sequence

from spanbook.outputs.data.about import About
from spanbook.reading.releases import Release
from spanbook.reading.write import Value, to_yaml

NAME = "CITATION.cff"
# A file that does not begin so is somebody's own and stays as it is.
MARK = "# Written by spanbook release: change mkdocs.yml and release again.\n"


def citation(release: Release, about: About, handles: Sequence[str]) -> str:
    """The file: the community is its author, and with it everybody whom the records name."""
    authors: list[Value] = [{"name": about.title}, *({"alias": handle} for handle in handles)]
    values: dict[str, Value] = {
        "cff-version": "1.2.0",
        "message": "Please name the release that you use.",
        "type": "dataset",
        "title": about.title,
        "version": release.name,
        "date-released": release.day.isoformat(),
        "authors": authors,
    }
    if about.licence:
        values["license"] = about.licence.id
    if about.address:
        values["url"] = about.address
    return MARK + to_yaml(values)
