"""Sizing: which standard size a thing on the bench is likely to be."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import Sort, Tool, Wear
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.cli.opening import opened
from spanbook.ground.punctuation import undecimals
from spanbook.outputs.json import size as size_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import size as size_text


def _one_of(kind: type[Sort] | type[Tool] | type[Wear]) -> click.Choice[str]:
    return click.Choice([str(one) for one in kind])


@main.command()
@click.argument("size", callback=console.argument)
@RECORDS
@click.option("--per-inch", type=click.FloatRange(min=1, max=200), help="Threads to the inch.")
@click.option("--pitch", type=click.FloatRange(min=0.1, max=25), help="The pitch of its thread, in mm.")
@click.option(
    "--flanks", type=click.FloatRange(min=20, max=120), help="The angle between its flanks, in degrees."
)
@click.option("--inside", is_flag=True, help="The size is the bore of a nut.")
@click.option("--as", "sort", type=_one_of(Sort), help="What sort of thing it is.")
@click.option("--read-with", type=_one_of(Tool), default=str(Tool.CALIPER), help="What it was read with.")
@click.option("--state", type=_one_of(Wear), default=str(Wear.USED), help="How worn it is.")
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-size.json."
)
def size(
    size: str,
    folder: Path,
    per_inch: float | None,
    pitch: float | None,
    flanks: float | None,
    inside: bool,
    sort: str | None,
    read_with: str,
    state: str,
    as_json: bool,
) -> None:
    """Say which standard size SIZE is likely to be, and what to measure to be surer.

    `5/16 in` with --per-inch 18 is a thread, `17x40x12 mm` a bearing, `1.5 x 0.07 in` an O-ring.
    """
    register = opened(folder)
    try:
        found = register.size(
            undecimals(size),
            per_inch=per_inch,
            pitch=pitch,
            flanks=flanks,
            inside=inside,
            sort=Sort(sort) if sort else None,
            read_with=Tool(read_with),
            state=Wear(state),
        )
    except ValueError as failure:
        raise click.ClickException(str(failure)) from None
    if as_json:
        click.echo(json_text(size_json.as_object(size, found)))
    else:
        click.echo(size_text.as_text(found))
