"""Addresses that were public once and have to go on working."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from spanbook.ground.language import gettext as _
from spanbook.reading.problems import Finding, Place, Problem, Rule, Severity

_OLDER = "# file: addresses.txt\nassemblies/lid/\n"
_COVER = "# file: content/assemblies/cover-plate.yml\nkind: assembly\nid: cover-plate\n"
_REST = (
    "title: Cover plate\nposition: body/cover\nserials:\n"
    "- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
)

DEAD = Rule(
    "address-dead",
    Severity.ERROR,
    "Addresses stand in forum threads for decades; one that was public once has to go on working.",
    bad=_OLDER + _COVER + _REST,
    good=_OLDER + _COVER + "formerly: [lid]\n" + _REST,
)
RULES = (DEAD,)


def dead(older: str, path: str, now: Collection[str]) -> Iterator[Problem]:
    """Every address of an older site's list, read from `path`, that would not work any more."""
    for number, line in enumerate(older.splitlines(), 1):
        address = line.strip()
        if address and address not in now:
            todo = _(
                "name the former id under formerly, give the anchor back, or say why it is gone in gone.yml"
            )
            place = Place(path, number)
            yield Problem.of(DEAD, Finding(place, _("the address {} would die").format(address), todo))
