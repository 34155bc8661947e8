"""The words of releases: what they are called, and what they hold."""

from __future__ import annotations

from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.reading.releases import Release
from spanbook.wording.days import day_words
from spanbook.wording.grammar import plural
from spanbook.wording.pages import PageWords

CHANGES = PageWords(
    marked("Changes"),
    marked("What each release of the records changed in the answers that you get here, why, and who looked."),
)


def none_yet() -> str:
    return _("No release has been made yet.")


def title(release: Release) -> str:
    return _("Release {name}, {day}").format(name=release.name, day=day_words(release.day))


def summary(release: Release) -> str:
    """What a release holds, and what it is compared with."""
    records = plural(release.records, "{} record", "{} records")
    if release.since is None:
        return _("The first release: {}.").format(records)
    if not release.changes:
        told = _("{records}; no change in the answers since {release}.")
        return told.format(records=records, release=release.since)
    return plural(
        len(release.changes),
        "{records}; {} change in the answers since {release}.",
        "{records}; {} changes in the answers since {release}.",
        records=records,
        release=release.since,
    )


def named(release: Release) -> str:
    """How a state of the records that is a release is called wherever it is named."""
    return _("release {name} of {day}").format(name=release.name, day=day_words(release.day))
