"""Data out: the records and answers as files for other programs."""

from __future__ import annotations

from pathlib import Path

import click

import spanbook
from spanbook import BuildFailed, Problems
from spanbook.cli.main import RECORDS, main
from spanbook.ground.language import gettext as _
from spanbook.outputs.data import FORMS


@main.command()
@click.argument("target", type=click.Path(path_type=Path))
@RECORDS
@click.option(
    "--form",
    "forms",
    multiple=True,
    type=click.Choice(FORMS),
    help="Only this form, and each other that is named so; all of them unless one is.",
)
def export(target: Path, folder: Path, forms: tuple[str, ...]) -> None:
    """Lay everything recorded, and what is worked out of it, down in the new folder TARGET as tables.

    xlsx is a workbook whose cells of text stay text, sqlite a database with a full-text index (found), csv a
    Data Package of CSV files, json the records as they were typed, one a line. The same records give the
    same bytes.
    """
    try:
        made = spanbook.export(folder, target, forms or FORMS)
    except Problems as failure:
        raise click.ClickException(
            _("nothing was written: these records have errors:\n{}").format(failure)
        ) from None
    except (BuildFailed, FileExistsError) as failure:
        raise click.ClickException(_("nothing was written: {}").format(failure)) from None
    click.echo("\n".join(f"  {name}" for name in made))
    click.echo(_("Made {folder}: {count} files.").format(folder=target, count=len(made)))
