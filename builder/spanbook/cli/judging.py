"""Judging: whether records can be shown, and what a proposal changes for readers."""

from __future__ import annotations

import sys
from collections.abc import Callable, Container, Iterator, Sequence
from pathlib import Path

import click

import spanbook
from spanbook import BuildFailed, Checked, NoRevision, NotComparable, Problem, Review
from spanbook.cli import console
from spanbook.cli.forge_log import add_to_summary, commands_stopped, in_forge
from spanbook.cli.main import FOLDER, PROJECT, main
from spanbook.faces.making import rules_address
from spanbook.outputs import json as json_forms
from spanbook.outputs import text as text_forms
from spanbook.outputs import whole_file
from spanbook.outputs.json_text import json_text
from spanbook.outputs.problems import FORMS, github
from spanbook.outputs.text.diff import MOST_MARKDOWN
from spanbook.wording import diff as diff_words
from spanbook.wording import proposal
from spanbook.wording.problems import mended_words, older_words
from spanbook.wording.proposal import Section
from spanbook.wording.rules import explanation

# What `review` ends with when the records are sound and a person has to read what else is touched.
TOUCHES_MORE = 3
# The summary of a run also holds what changes for readers, and a headline.
_MOST_PROBLEMS = github.MOST_SUMMARY - MOST_MARKDOWN - 1000


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
    _tell(problems, records, form)
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
    "--format", "form", type=click.Choice(["text", "github"]), default="text", help="How to tell problems."
)
@click.option(
    "--report", type=click.Path(path_type=Path, dir_okay=False), help="A file for all of it, as Markdown."
)
def review(old: str, new: str, folder: Path, form: str, report: Path | None) -> None:
    """Judge a proposal: check the revision NEW as it would be merged into OLD, then compare it with OLD.

    What OLD got since NEW began shows as nothing. Nothing of NEW is run, and its attributes have no say in
    the merge, which takes git 2.38 or newer. Ends with 1 when a file clashes, an address would die, or NEW
    brings errors or leaves all those that OLD has; and with 3 when none of this is so and files are touched
    that are no records: settings, workflows, hooks, guides. Somebody has to read those before the proposal is
    taken in.
    """
    judged = _reviewed(folder, old, new)
    problems, records = judged.fresh, len(judged.checked.register.records)
    _tell(problems, records, form, judged.changed)
    # Reading settings runs their hooks, so `check`, which may be given a proposal itself, never asks.
    told = [github.as_summary(problems, records, _MOST_PROBLEMS, rules_address(folder))]
    for line in filter(None, (mended_words(judged.mended, judged.older), older_words(judged.older))):
        click.echo(line)
        told.append(f"{line}\n")
    try:
        for place, headline in enumerate(_headlines(judged, form)):
            told.insert(place, f"# {headline}\n")
        # What changes for readers cannot be told of broken records; what else is touched can.
        title = diff_words.TITLE_BESIDES if judged.comparison is None else diff_words.TITLE
        changes = tuple(_changes(judged))
        if changes or judged.comparison:
            with commands_stopped(in_forge() or form == "github"):
                click.echo(text_forms.diff.as_text(changes))
            told.append(text_forms.diff.as_markdown(changes, title))
    except (NoRevision, NotComparable, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None
    finally:
        if report:
            whole_file.replace(report, "\n".join(told))
        if form == "github":
            add_to_summary("\n".join(told))
    sys.exit(1 if judged.broken or judged.dying else TOUCHES_MORE if judged.touched else 0)


def _headlines(judged: Review, form: str) -> Iterator[str]:
    """What has to be known before anything else, each printed as soon as it is known."""
    for title, text, command in _worst(judged):
        click.echo(command(title, text) if form == "github" else text)
        yield text


def _worst(judged: Review) -> Iterator[tuple[str, str, Callable[[str, str], str]]]:
    if judged.clashes:
        yield "Clashes", proposal.clash_headline(judged.clashes), github.error
    if headline := proposal.headline(judged.touched):
        yield "Not records alone", headline, github.warning
    # Last, for where there are no old records it cannot be told.
    if judged.dying:
        yield "Addresses would die", proposal.dying_headline(judged.dying), github.error


def _changes(judged: Review) -> Iterator[Section]:
    if judged.clashes:
        yield proposal.clash_section(judged.clashes)
    if found := judged.comparison:
        yield from diff_words.sections(found)
        return
    yield from proposal.besides(judged.touched)
    if judged.mended and (records := [path for path in judged.changed or () if path not in judged.touched]):
        yield proposal.untold_section(sorted(records))


def _reviewed(folder: Path, old: str, new: str) -> Review:
    try:
        return spanbook.review(folder, old, new)
    except NoRevision as missing:
        raise click.ClickException(str(missing)) from None


def _tell(problems: Sequence[Problem], records: int, form: str, files: Container[str] | None = None) -> None:
    # Annotations are meant to be obeyed, and what other programs read is no place for marks.
    with commands_stopped(in_forge() and form == "text"):
        noted = form == "github"
        click.echo(github.as_commands(problems, records, files) if noted else FORMS[form](problems, records))


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
        sections = diff_words.sections(found)
        text = form == "text"
        with commands_stopped(in_forge() and text):
            click.echo(text_forms.diff.as_text(sections) if text else text_forms.diff.as_markdown(sections))


def _explanation(name: str) -> str:
    if name == "all":
        rules = spanbook.all_rules().values()
        return "\n".join(f"{rule.name} ({rule.severity}): {rule.reason}" for rule in rules)
    try:
        return explanation(spanbook.explain(name))
    except LookupError as unknown:
        raise click.ClickException(f"{unknown}; --explain all lists the names") from None
