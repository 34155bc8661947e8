"""Importing: the rows of a spreadsheet become drafts."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import click

import spanbook
from spanbook import CannotChange, Imported, NotASheet, Problems
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.faces.prompt import ENTERED
from spanbook.ground.language import gettext as _
from spanbook.ground.language import ngettext
from spanbook.outputs.json.imported import import_object
from spanbook.outputs.json_text import json_text
from spanbook.wording.sheets import told


@main.command("import")
@click.argument("sheet", type=click.Path(path_type=Path))
@click.option(
    "--map",
    "map_",
    metavar="MAP",
    type=click.Path(path_type=Path),
    help="Which column goes into which field.",
)
@click.option("--guess", type=click.Choice(ENTERED), help="Write a map to begin with, for rows of this kind.")
@click.option(
    "--sheet", "name", metavar="NAME", help="With --guess: which sheet of the file; the first otherwise."
)
@RECORDS
@click.option("--yes", is_flag=True, help="Write the drafts without asking.")
@click.option("--plan", "only_plan", is_flag=True, help="Only tell what would come of it.")
@click.option(
    "--show",
    type=click.IntRange(0, 1000),
    default=0,
    metavar="COUNT",
    help="Show so many of the drafts whole.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="All of it as one JSON object: schema/answer-import.json."
)
def import_(
    sheet: Path, map_: Path | None, guess: str | None, name: str | None, folder: Path, **how: Any
) -> None:
    """Make drafts of records from the rows of SHEET: an XLSX, ODS, XLS or CSV file.

    First --guess KIND writes a map to begin with: correct it, and fill in what it leaves open. With --map
    the drafts are laid in drafts/, in a folder called as the map, never among the records themselves; what
    was left over is told with the cell and stands beside them. Nothing of a cell is guessed. Run again, it
    makes nothing twice.
    """
    try:
        if guess:
            click.echo(spanbook.guess_map(folder, sheet, guess, name), nl=False)
            return
        if map_ is None:
            raise click.UsageError(_("name the map with --map, or begin one: --guess KIND > MAP.yml"))
        _carry_out(spanbook.import_sheet(folder, sheet, map_), **how)
    except Problems as wrong:
        raise click.ClickException(_("the map cannot be used:\n{}").format(wrong)) from None
    except (NotASheet, CannotChange) as why:
        raise click.ClickException(str(why)) from None


def _carry_out(found: Imported, *, yes: bool, only_plan: bool, show: int, as_json: bool) -> None:
    if as_json:
        click.echo(json_text(_object(found), indent=1))
    else:
        lines = told(
            found.sheet, found.rows, found.fates, found.standing, found.left, found.alike, found.problems
        )
        click.echo("\n".join(lines))
        for file in [file for file in found.files if file.draft][:show]:
            click.echo(f"\n{file.path}\n{file.text}", nl=False)
    if only_plan or (as_json and not yes):
        return
    if not yes and not console.agreed(_("Write the drafts into {}?").format(found.folder)):
        click.echo(_("Nothing was written."))
        return
    changed = found.write()
    if not as_json:
        click.echo(
            ngettext(
                "Wrote {folder}: {count} file. What of it is right goes into content/.",
                "Wrote {folder}: {count} files. What of them is right goes into content/.",
                changed,
            ).format(folder=found.folder, count=changed)
        )


def _object(found: Imported) -> dict[str, Any]:
    files = [(file.path, str(file.fate), file.draft) for file in found.files]
    return import_object(
        found.sheet, found.rows, files, found.standing, found.left, found.alike, found.problems
    )
