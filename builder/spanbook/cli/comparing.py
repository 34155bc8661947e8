"""Comparing: what changes for readers between two states of the records."""

from __future__ import annotations

from pathlib import Path

import click

import spanbook
from spanbook import BuildFailed, NotComparable
from spanbook.cli.forge_log import commands_stopped, in_forge
from spanbook.cli.main import PROJECT, main
from spanbook.outputs.json import diff as diff_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import diff as diff_text
from spanbook.wording import headline


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
        click.echo(json_text(diff_json.as_object(found)))
    else:
        sections = tuple(headline.whole(found))
        text = form == "text"
        with commands_stopped(in_forge() and text):
            click.echo(diff_text.as_text(sections) if text else diff_text.as_markdown(sections))
