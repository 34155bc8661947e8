"""Judging: whether records can be shown, and what changes for readers between two states of them."""

from __future__ import annotations

import sys
from pathlib import Path

import click

import spanbook
from spanbook import BuildFailed, Checked, NoRevision, NotComparable
from spanbook.cli import console
from spanbook.cli.forge_log import add_to_summary, commands_stopped, in_forge
from spanbook.cli.main import FOLDER, PROJECT, main
from spanbook.cli.telling import tell_problems
from spanbook.ground.language import gettext as _
from spanbook.outputs import json as json_forms
from spanbook.outputs import text as text_forms
from spanbook.outputs.json_text import json_text
from spanbook.outputs.problems import FORMS, github
from spanbook.wording import headline
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


@main.command()
@click.argument("old")
@click.argument("new")
@PROJECT
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown", "json"]),
    default="text",
    help="How to tell it.",
)
@click.option("--merge", is_flag=True, help="Compare NEW as it would be merged into OLD; both are revisions.")
def compare(old: str, new: str, folder: Path, form: str, merge: bool) -> None:
    """Tell what changes in the answers between OLD and NEW: project folders, or git revisions.

    Not the lines but what readers get: which serial numbers get another answer where, what is ordered
    otherwise, what stands otherwise, which questions open or close, which addresses are new or would die;
    or that nothing changes for readers. JSON follows schema/answer-compare.json; Markdown is cut below
    64 kB with a count.
    """
    try:
        found = spanbook.compare(old, new, folder, merge=merge)
    except (NotComparable, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None
    if form == "json":
        click.echo(json_text(json_forms.diff.as_object(found)))
    else:
        sections = tuple(headline.whole(found))
        text = form == "text"
        with commands_stopped(in_forge() and text):
            click.echo(text_forms.diff.as_text(sections) if text else text_forms.diff.as_markdown(sections))


def _explanation(name: str) -> str:
    if name == "all":
        rules = spanbook.all_rules().values()
        return "\n".join(map(explained, rules))
    try:
        return explanation(spanbook.explain(name))
    except LookupError as unknown:
        raise click.ClickException(_("{}; --explain all lists the names").format(unknown)) from None
