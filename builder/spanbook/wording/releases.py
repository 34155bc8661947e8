"""The words of releases: what they are called, and what they hold."""

from __future__ import annotations

from calendar import month_name
from datetime import date

from spanbook.reading.releases import Release
from spanbook.wording.grammar import plural
from spanbook.wording.pages import PageWords

CHANGES = PageWords(
    "Changes",
    "What each release of the records changed in the answers that you get here, why, and who looked.",
)
NONE_YET = "No release has been made yet."


def day_words(day: date) -> str:
    """`26 November 2026`."""
    return f"{day.day} {month_name[day.month]} {day.year}"


def title(release: Release) -> str:
    return f"Release {release.name}, {day_words(release.day)}"


def summary(release: Release) -> str:
    """What a release holds, and what it is compared with."""
    records = plural(release.records, "{} record", "{} records")
    if release.since is None:
        return f"The first release: {records}."
    changes = plural(len(release.changes), "{} change", "{} changes") if release.changes else "no change"
    return f"{records}; {changes} in the answers since {release.since}."


def named(release: Release) -> str:
    """How a state of the records that is a release is called wherever it is named."""
    return f"release {release.name} of {day_words(release.day)}"
