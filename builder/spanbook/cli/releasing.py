"""Releasing: a name for a state of the records, and what it changed for readers."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import click

import spanbook
from spanbook import BrokenRelease, BuildFailed, NotComparable, NotReleased, Problems
from spanbook.cli.main import PROJECT, main
from spanbook.ground.language import gettext as _
from spanbook.reading.problems import one_line
from spanbook.wording import releases as words


@main.command()
@click.argument("name")
@PROJECT
@click.option(
    "--date",
    "day",
    type=click.DateTime(["%Y-%m-%d"]),
    metavar="DAY",
    help="The day of the release, as 2026-11-26; today unless given.",
)
@click.option("--since", metavar="REVISION", help="What to compare with; the release before unless given.")
def release(name: str, folder: Path, day: datetime | None, since: str | None) -> None:
    """Release the records as they stand under NAME, and tell what that changes in the answers.

    It writes content/releases/NAME.json, from which the site makes its page of changes, its feed
    (changes.atom) and release.json, and CITATION.cff, unless somebody wrote that by hand. Commit both and tag
    the commit NAME: the next release is compared with that tag.
    """
    try:
        made = spanbook.release(folder, name, day=day.date() if day else None, since=since)
    except Problems as failure:
        raise click.ClickException(
            _("nothing was written: these records have errors:\n{}").format(failure)
        ) from None
    except (BrokenRelease, BuildFailed, FileExistsError, NotComparable, NotReleased) as failure:
        raise click.ClickException(_("nothing was written: {}").format(failure)) from None
    click.echo(words.title(made))
    click.echo(words.summary(made))
    for change in made.changes:
        click.echo(f"  {one_line(change.words)}")
    click.echo(_("Wrote {}. Now:").format(folder / "content/releases" / f"{name}.json"))
    click.echo(f"  git add content/releases CITATION.cff && git commit -m 'Release {name}' && git tag {name}")
