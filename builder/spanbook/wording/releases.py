"""The words of releases: what one changed in the answers that readers get."""

from __future__ import annotations

from calendar import month_name
from collections.abc import Mapping
from datetime import date

from spanbook.answers.diff.model import Comparison, OrderChange, StandingChange, StatementKey
from spanbook.answers.diff.points import Point
from spanbook.reading.records import Series
from spanbook.reading.releases import Release
from spanbook.register.statements import Statement
from spanbook.wording.grammar import plural
from spanbook.wording.grounds import called
from spanbook.wording.headline import point_words
from spanbook.wording.orders import ways_words
from spanbook.wording.pages import PageWords

CHANGES = PageWords(
    "Changes",
    "What each release of the records changed in the answers that you get here, why, and who looked.",
)
NONE_YET = "No release has been made yet."


def change_words(found: Comparison, point: Point, said: Mapping[StatementKey, Statement]) -> str:
    """A change in a line, for readers: `said` are the statements of both sides by what they are known by."""
    change = point.change
    if not isinstance(change, StandingChange):
        return point_words(found, point)
    statement = said.get((change.kind, change.record, change.anchor))
    what = called(statement) if statement else f"{change.kind} {change.record}"
    return f"{what}: {change.before or 'not said'} → {change.after or 'no longer said'}"


def order_told_alike(found: Comparison, change: OrderChange) -> bool:
    """Whether a reader is told the same of what to order, whatever it rests on."""
    sides = ((found.old, change.before), (found.new, change.after))
    was, now = (ways_words(register, one.ways) if one else None for register, one in sides)
    return was == now


def new_series(series: Series, positions: int) -> str:
    """That the numbers of a series are answered, which nobody had recorded before."""
    return f"{series.name}: new here, with answers at {plural(positions, '{} position', '{} positions')}"


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
