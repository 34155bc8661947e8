"""Flowing: which way oil, water or current goes through a machine, and what a fault does to it."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import BuildFailed, Wrong, flow_asked
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.cli.opening import opened
from spanbook.outputs.json import flow as flow_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import flow as flow_text


@main.command()
@click.argument("serial", callback=console.argument)
@RECORDS
@click.option("--has", multiple=True, metavar="ASSEMBLY", help="What the machine has now, by its id.")
@click.option("--circuit", metavar="CIRCUIT", help="This circuit alone, by its id.")
@click.option("--state", metavar="STATE", help="How it runs, by the id of a state; else each.")
@click.option("--without", metavar="WAY", help="With a valve, an element or a plug left out.")
@click.option("--plugged", metavar="WAY", help="With a way that nothing passes.")
@click.option("--stuck", metavar="WAY", help="With a valve that does not open.")
@click.option("--json", "as_json", is_flag=True, help="As JSON: schema/answer-flow.json.")
def flow(
    serial: str,
    folder: Path,
    has: tuple[str, ...],
    circuit: str | None,
    state: str | None,
    without: str | None,
    plugged: str | None,
    stuck: str | None,
    as_json: bool,
) -> None:
    """Say which way it goes through the machine SERIAL: what is cleaned, how much, and what a fault does.

    Figures are given where enough is recorded, each between two ends; without sizes there are ways only.
    """
    register = opened(folder)
    try:
        found = register.flow(serial, register.places(*has))
        wrong = ((Wrong.LEFT_OUT, without), (Wrong.PLUGGED, plugged), (Wrong.STUCK_SHUT, stuck))
        asked = flow_asked(found, circuit, state, [(way, how) for how, way in wrong if way])
        if as_json:
            click.echo(json_text(flow_json.as_object(register.answers, serial, asked)))
        else:
            click.echo(flow_text.as_text(register.answers, serial, asked))
    except (BuildFailed, LookupError) as failure:
        raise click.ClickException(str(failure)) from None
