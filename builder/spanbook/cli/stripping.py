"""Stripping: how an assembly comes apart."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import Problems, open_register
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.outputs import json as json_forms
from spanbook.outputs import text as text_forms
from spanbook.outputs.json_text import json_text


@main.command()
@click.argument("assembly", callback=console.argument)
@RECORDS
@click.option(
    "--for",
    "serial",
    metavar="SERIAL",
    callback=console.argument,
    help="The machine it is on: what comes off, and what is ordered for what is renewed, is that one's.",
)
@click.option("--json", "as_json", is_flag=True, help="As JSON: schema/answer-strip.json.")
def strip(assembly: str, folder: Path, serial: str | None, as_json: bool) -> None:
    """Say how ASSEMBLY comes apart: steps, tools, what to catch, what to renew, and putting it back."""
    try:
        register = open_register(folder)
        sheet = register.strip(assembly, serial)
    except (Problems, LookupError) as failure:
        raise click.ClickException(str(failure)) from None
    if sheet is None:
        raise click.ClickException(f"nobody has told of taking {assembly} apart yet")
    if as_json:
        click.echo(json_text(json_forms.strip.as_object(register, sheet, serial)))
    else:
        click.echo(text_forms.strip.as_text(register, sheet))
