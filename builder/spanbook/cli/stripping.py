"""Stripping: how an assembly comes apart."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import OpenRegister
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.cli.opening import opened
from spanbook.ground.language import gettext as _
from spanbook.outputs.json import renew as renew_json
from spanbook.outputs.json import strip as strip_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import renew as renew_text
from spanbook.outputs.text import strip as strip_text


@main.command()
@click.argument("assembly", required=False, callback=console.argument)
@RECORDS
@click.option(
    "--for",
    "serial",
    metavar="SERIAL",
    callback=console.argument,
    help="The machine it is on: what comes off, and what is ordered for what is renewed, is that one's.",
)
@click.option(
    "--json",
    "as_json",
    is_flag=True,
    help="As JSON: schema/answer-strip.json, without ASSEMBLY answer-renew.json.",
)
def strip(assembly: str | None, folder: Path, serial: str | None, as_json: bool) -> None:
    """Say how ASSEMBLY comes apart: steps, tools, what to catch, what to renew, and putting it back.

    Without ASSEMBLY, all that is renewed on the machine SERIAL, position by position.
    """
    register = opened(folder)
    try:
        told = (
            _sheet(register, assembly, serial, as_json) if assembly else _renewing(register, serial, as_json)
        )
    except LookupError as failure:
        raise click.ClickException(str(failure)) from None
    click.echo(told)


def _sheet(register: OpenRegister, assembly: str, serial: str | None, as_json: bool) -> str:
    sheet = register.strip(assembly, serial)
    if sheet is None:
        raise click.ClickException(_("nobody has told of taking {} apart yet").format(assembly))
    machine = register.machine(serial) if serial else None
    held = register.answers.may_hold(sheet.assembly, machine) if machine else None
    if as_json:
        return json_text(strip_json.as_object(register, sheet, serial, held))
    return strip_text.as_text(register, sheet, machine, held)


def _renewing(register: OpenRegister, serial: str | None, as_json: bool) -> str:
    if serial is None:
        raise click.UsageError(_("name an assembly, or a machine with --for SERIAL"))
    holdings = register.renewing(serial)
    if as_json:
        return json_text(renew_json.as_object(register, serial, holdings))
    return renew_text.as_text(register, register.machine(serial), holdings)
