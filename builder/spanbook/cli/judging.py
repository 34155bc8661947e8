"""Judging: whether records can be shown."""

from __future__ import annotations

import sys
from pathlib import Path

import click

import spanbook
from spanbook import Checked, NoRevision
from spanbook.cli import console
from spanbook.cli.forge_log import add_to_summary
from spanbook.cli.main import FOLDER, main
from spanbook.cli.telling import tell_problems
from spanbook.ground.language import gettext as _
from spanbook.outputs.problems import github
from spanbook.outputs.problems.forms import FORMS
from spanbook.wording.rules import explained, explanation


@main.command()
@FOLDER
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
@click.option("--format", "form", type=click.Choice(list(FORMS)), default="text", help="How to tell it.")
@click.option(
    "--addresses",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="An older site's addresses.txt: fail if one of its addresses would die.",
)
@click.option("--at", metavar="REVISION", help="Check the records as they are at a git revision of FOLDER.")
@click.option("--explain", metavar="NAME", help="Explain one problem; `all` lists the names.")
def check(
    folder: Path, strict: bool, form: str, addresses: Path | None, at: str | None, explain: str | None
) -> None:
    """Check the records of FOLDER (a project, or its content folder) and tell every problem."""
    if explain is not None:
        click.echo(_explanation(explain))
        return
    checked = _checked(folder, at)
    dead = spanbook.dead_addresses(checked, console.text_of(addresses), str(addresses)) if addresses else ()
    problems = (*checked.problems, *dead)
    records = len(checked.register.records)
    tell_problems(problems, records, form)
    if form == "github":
        add_to_summary(github.as_summary(problems, records))
    sys.exit(spanbook.fails(problems, strict=strict))


def _checked(folder: Path, at: str | None) -> Checked:
    try:
        return spanbook.check(folder, at=at)
    except NoRevision as missing:
        raise click.ClickException(str(missing)) from None


def _explanation(name: str) -> str:
    if name == "all":
        rules = spanbook.all_rules().values()
        return "\n".join(map(explained, rules))
    try:
        return explanation(spanbook.explain(name))
    except LookupError as unknown:
        raise click.ClickException(_("{}; --explain all lists the names").format(unknown)) from None
