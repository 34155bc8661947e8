"""Holding: which assembly or part a thing on the bench is, and what to look at to be surer."""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import click

from spanbook import Problems, open_register, seen_of
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import undecimals
from spanbook.outputs.json import tell as tell_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import tell as tell_text


@main.command()
@click.option(
    "--position", required=True, metavar="POSITION", help="Where it belongs: lubrication/oil-filter."
)
@RECORDS
@click.option(
    "--sign", "signs", multiple=True, metavar="SIGN=ANSWER", help="What is seen: lid-held=four nuts."
)
@click.option("--serial", metavar="SERIAL", callback=console.argument, help="The machine that it is from.")
@click.option("--size", "sizes", multiple=True, metavar="WHAT=SIZE", help="A length: Diameter=3 3/4 in.")
@click.option(
    "--mark", "marks", multiple=True, metavar="MARK", help="What is read on it, ? for what is worn."
)
@click.option("--parts", is_flag=True, help="Which part it is, and not which assembly.")
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-tell.json."
)
def tell(
    position: str,
    folder: Path,
    signs: tuple[str, ...],
    serial: str | None,
    sizes: tuple[str, ...],
    marks: tuple[str, ...],
    parts: bool,
    as_json: bool,
) -> None:
    """Say which assembly of a position somebody holds by what is seen of it, and what to look at next.

    An answer that none of a sign's fits is `something else`. Where no sign is given it says what to look at
    first.
    """
    try:
        register = open_register(folder)
        key = register.key(position, parts=parts)
        machine = register.machine(serial) if serial else None
        lengths = {what: undecimals(length) for what, length in _pairs(sizes).items()}
        seen = seen_of(key, _pairs(signs), machine, lengths, marks)
        forms = json_text(tell_json.as_object(key, seen)) if as_json else tell_text.as_text(key, seen)
        click.echo(forms)
    except (Problems, LookupError, ValueError) as failure:
        raise click.ClickException(str(failure)) from None


def _pairs(given: Iterable[str]) -> dict[str, str]:
    """What stands before and after the first `=` of each."""
    pairs = [one.partition("=") for one in given]
    for before, equals, after in pairs:
        if not (before.strip() and equals and after.strip()):
            raise LookupError(_("{}: write it as lid-held=four nuts").format(f"{before}{equals}{after}"))
    return {before.strip(): after.strip() for before, _, after in pairs}
