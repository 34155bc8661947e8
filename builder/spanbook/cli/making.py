"""Making: building and serving the site."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import building
from spanbook.cli.main import FOLDER, main


@main.command()
@FOLDER
@click.option("--site", type=click.Path(path_type=Path), help="Where the site goes; FOLDER/site otherwise.")
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
def build(folder: Path, site: Path | None, strict: bool) -> None:
    """Build the site of FOLDER. If that fails, the previous site stays as it was."""
    try:
        built = building.build(folder, site, strict, lambda text: click.echo(text, err=True))
    except building.BuildFailed as failure:
        raise click.ClickException(
            f"nothing was built, and the previous site is as it was. {failure}"
        ) from None
    click.echo(f"Built {built.pages} pages in {built.seconds:.1f} s: {built.folder}")


@main.command()
@FOLDER
@click.option("--address", default="127.0.0.1:8000", help="Where to serve: HOST:PORT.")
def serve(folder: Path, address: str) -> None:
    """Serve the site of FOLDER and rebuild it when a record changes."""
    try:
        building.serve(folder, address, lambda text: click.echo(text, err=True))
    except building.BuildFailed as failure:
        raise click.ClickException(str(failure)) from None
