"""Calling things otherwise in every file: the plan first, then all of it or nothing."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import click

import spanbook
from spanbook import CannotChange, Correction
from spanbook.cli import console
from spanbook.cli.main import RECORDS, main
from spanbook.ground.language import gettext as _
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


def _begins(
    context: click.Context, parameter: click.Parameter, typed: tuple[str, ...]
) -> dict[str, tuple[int, int]]:
    found = {}
    for one in typed:
        if not (read := re.fullmatch(r"([a-z0-9-]+)=([0-9]{1,12})(?:\.\.([0-9]{1,12}))?", one)):
            raise click.BadParameter(
                _("{}: write the series and the number, such as hk=301 or hk=301..310").format(one)
            )
        low = int(read[2])
        found[read[1]] = (low, max(low, int(read[3] or low)))
    return found


def _carry_out(make: Callable[[], Correction], *, yes: bool, only_plan: bool) -> None:
    try:
        found = make()
        click.echo("\n".join(plan_lines(found.files, found.led_on, found.problems, found.joined)))
        if only_plan:
            return
        if not yes and not console.agreed(_("Do it?")):
            click.echo(_("Nothing was changed."))
            return
        found.write()
    except CannotChange as why:
        raise click.ClickException(str(why)) from None
    click.echo(_("Done."))


@main.command()
@click.argument("what", callback=console.argument)
@click.argument("name", callback=console.argument)
@_planned
def rename(what: str, name: str, folder: Path, **how: Any) -> None:
    """Give WHAT the id NAME, in every file that mentions it; its addresses go on working.

    WHAT is named as its address does: assemblies/edge-strainer, series/hk, positions/lubrication/oil-filter,
    of which the last word changes; with # the anchor of a span, such as assemblies/edge-strainer#span-hk. A
    sign is named signs/lid-held, and an answer of it, whose words are NAME then, "signs/lid-held=four nuts".
    The plan is shown first, then all of it is done, or nothing.
    """
    _carry_out(lambda: spanbook.rename(folder, what, name), **how)


@main.command()
@click.argument("old", callback=console.argument)
@click.argument("new", callback=console.argument)
@click.option("--by", metavar="FIRM", help="Whose number OLD is, where several have it.")
@click.option("--new-by", metavar="FIRM", help="Whose number NEW is, where it is another's.")
@click.option("--means", metavar="PART", help="The id of the part, where OLD has meant several things.")
@click.option("--in", "only", metavar="WHAT", multiple=True, help="Only in this record; may be given again.")
@_planned
def renumber(
    old: str,
    new: str,
    by: str | None,
    new_by: str | None,
    means: str | None,
    only: tuple[str, ...],
    folder: Path,
    **how: Any,
) -> None:
    """Give the part OLD the number NEW, because it was misread, in every file that mentions it.

    Its page and its lines are found by the old number too. For a number that the works replaced by another
    write a supersession. The plan is shown first, then all of it is done, or nothing.
    """
    _carry_out(
        lambda: spanbook.renumber(folder, old, new, by=by, new_by=new_by, means=means, only=only), **how
    )


@main.command()
@click.argument("what", callback=console.argument)
@click.argument("into", callback=console.argument)
@_planned
def merge(what: str, into: str, folder: Path, **how: Any) -> None:
    """Put WHAT together with INTO, because they are one thing: two records of a kind, series or positions.

    What only WHAT says comes to INTO, whatever names WHAT names INTO, and WHAT's addresses lead there. Where
    both say something, INTO's stays: look at what the plan takes away. The plan is shown first, then all of
    it is done, or nothing.
    """
    _carry_out(lambda: spanbook.merge(folder, what, into), **how)


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


@main.command()
@click.argument("what", callback=console.argument)
@click.argument("into", nargs=-1, required=True)
@click.option(
    "--second-from",
    "begins",
    metavar="SERIES=NUMBER",
    multiple=True,
    callback=_begins,
    help="Where the second of two begins: hk=301, or hk=301..310 for somewhere from 301 to 310.",
)
@click.option("--made", metavar="ID", help="Which of them conversions to WHAT make.")
@click.option("--why", metavar="TEXT", callback=console.argument, help="What was found out.")
@_planned
def split(
    what: str,
    into: tuple[str, ...],
    begins: dict[str, tuple[int, int]],
    made: str | None,
    why: str | None,
    folder: Path,
    **how: Any,
) -> None:
    """Tell the assembly WHAT apart into new ids, INTO: each gets a record to be corrected further.

    WHAT is retired: it keeps its page, and leads on to them. Who saw WHAT saw one of them, and is weighed as
    that. Without a number each is possibly on all the numbers of WHAT. The plan is shown first, then all of
    it is done, or nothing.
    """
    _carry_out(lambda: spanbook.split(folder, what, into, second_from=begins, made=made, why=why), **how)
