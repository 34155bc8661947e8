"""Calling things otherwise in every file: the plan first, then all of it or nothing."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

import spanbook
from spanbook import CannotChange, Correction
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.wording.editing import plan_lines

_Command = Callable[..., None]


def _planned(command: _Command) -> _Command:
    """What all of these commands take, and the name and folder of each."""
    for option in (
        RECORDS,
        click.option("--yes", is_flag=True, help="Do it without asking."),
        click.option("--plan", "only_plan", is_flag=True, help="Only show what would change."),
    ):
        command = option(command)
    return command


def _carry_out(make: Callable[[], Correction], *, yes: bool, only_plan: bool) -> None:
    try:
        found = make()
        click.echo("\n".join(plan_lines(found.files, found.led_on, found.problems)))
        if only_plan:
            return
        if not yes and not click.confirm("Do it?", default=False):
            click.echo("Nothing was changed.")
            return
        found.write()
    except CannotChange as why:
        raise click.ClickException(str(why)) from None
    click.echo("Done.")


@main.command()
@click.argument("what", callback=console.argument)
@click.argument("name", callback=console.argument)
@_planned
def rename(what: str, name: str, folder: Path, **how: Any) -> None:
    """Give WHAT the id NAME, in every file that mentions it; its addresses go on working.

    WHAT is named as its address does: assemblies/edge-strainer, series/hk, positions/lubrication/oil-filter,
    of which the last word changes; with # the anchor of a span, such as assemblies/edge-strainer#span-hk.
    The plan is shown first, then all of it is done, or nothing.
    """
    _carry_out(lambda: spanbook.rename(folder, what, name), **how)


@main.command()
@click.argument("old", callback=console.argument)
@click.argument("new", callback=console.argument)
@click.option("--by", metavar="FIRM", help="Whose number OLD is, where several have it.")
@click.option("--new-by", metavar="FIRM", help="Whose number NEW is, where it is another's.")
@click.option("--in", "only", metavar="WHAT", multiple=True, help="Only in this record; may be given again.")
@_planned
def renumber(
    old: str, new: str, by: str | None, new_by: str | None, only: tuple[str, ...], folder: Path, **how: Any
) -> None:
    """Give the part OLD the number NEW, because it was misread, in every file that mentions it.

    Its page and its lines are found by the old number too. For a number that the works replaced by another
    write a supersession. The plan is shown first, then all of it is done, or nothing.
    """
    _carry_out(lambda: spanbook.renumber(folder, old, new, by=by, new_by=new_by, only=only), **how)


@main.command()
@click.argument("what", callback=console.argument)
@click.argument("where", callback=console.argument)
@_planned
def move(what: str, where: str, folder: Path, **how: Any) -> None:
    """Move the position WHAT into the group WHERE, or the assembly WHAT to the position WHERE.

    Both are named as their addresses do; WHERE is positions for a place in no group. What is inside a
    position goes with it, and all their addresses go on working. The plan is shown first, then all of it is
    done, or nothing.
    """
    _carry_out(lambda: spanbook.move(folder, what, where), **how)
