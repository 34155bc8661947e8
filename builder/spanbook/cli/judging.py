"""Judging: whether records can be shown, and what a proposal changes for readers."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from pathlib import Path

import click

from spanbook import rules
from spanbook.answers.diff.model import Comparison
from spanbook.cli import console
from spanbook.cli.forge_log import add_to_summary, commands_stopped, in_forge
from spanbook.cli.main import FOLDER, PROJECT, main
from spanbook.faces import diff
from spanbook.mkdocs.settings import BuildFailed, site_address
from spanbook.outputs import json as json_forms
from spanbook.outputs import text as text_forms
from spanbook.outputs import whole_file
from spanbook.outputs.json_text import json_text
from spanbook.outputs.problems import FORMS, github
from spanbook.outputs.text.diff import MOST_MARKDOWN
from spanbook.reading import git_tree
from spanbook.reading.problems import Problem, Severity, errors
from spanbook.reading.record_cache import known_of
from spanbook.rules.addresses import dead
from spanbook.rules.checking import Checked, check_folder, check_tree
from spanbook.site import permanent
from spanbook.wording import diff as diff_words
from spanbook.wording import proposal
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
    problems = (*checked.problems, *_dead(addresses, checked))
    records = len(checked.register.records)
    _tell(problems, records, form)
    if form == "github":
        add_to_summary(github.as_summary(problems, records))
    sys.exit(_fails(problems, strict))


def _checked(folder: Path, at: str | None) -> Checked:
    try:
        if at is None:
            return check_folder(folder)
        with known_of(folder / "content") as known:
            return check_tree(git_tree.content_at(folder, at), "content", known)
    except git_tree.NoRevision as missing:
        raise click.ClickException(str(missing)) from None


def _fails(problems: Sequence[Problem], strict: bool) -> bool:
    failing = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return any(problem.severity in failing for problem in problems)


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
    """Judge a proposal: check the revision NEW, then compare it with OLD. Nothing of NEW is run.

    Ends with 3 when the records are sound and files are touched that are no records: settings, workflows,
    hooks, guides. Somebody has to read those before the proposal is taken in.
    """
    checked = _checked(folder, new)
    records, broken = len(checked.register.records), bool(errors(checked.problems))
    _tell(checked.problems, records, form)
    told = [github.as_summary(checked.problems, records, _MOST_PROBLEMS, _site(folder))]
    try:
        paths = git_tree.touched_besides(folder, old, new)
        if headline := proposal.headline(paths):
            click.echo(github.warning("Not records alone", headline) if form == "github" else headline)
            told.insert(0, f"# {headline}\n")
        # What changes for readers cannot be told of broken records; what else is touched can.
        title = diff_words.TITLE_BESIDES if broken else diff_words.TITLE
        changes = tuple(proposal.besides(paths) if broken else _changes(folder, old, new))
        if changes or not broken:
            with commands_stopped(in_forge() or form == "github"):
                click.echo(text_forms.diff.as_text(changes))
            told.append(text_forms.diff.as_markdown(changes, title))
    except git_tree.NoRevision as missing:
        raise click.ClickException(str(missing)) from None
    finally:
        if report:
            whole_file.replace(report, "\n".join(told))
        if form == "github":
            add_to_summary("\n".join(told))
    sys.exit(1 if broken else TOUCHES_MORE if paths else 0)


def _site(folder: Path) -> str | None:
    """Where the rules are explained. Broken settings are for the build to tell of.

    Reading settings runs their hooks, so `check`, which may be given a proposal itself, never asks.
    """
    try:
        return site_address(folder)
    except BuildFailed:
        return None


def _tell(problems: Sequence[Problem], records: int, form: str) -> None:
    # Annotations are meant to be obeyed, and what other programs read is no place for marks.
    with commands_stopped(in_forge() and form == "text"):
        click.echo(FORMS[form](problems, records))


def _changes(folder: Path, old: str, new: str) -> Iterator[proposal.Section]:
    try:
        return diff_words.sections(diff.compare_revisions(folder, old, new))
    except (diff.NotComparable, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None


def _compared(folder: Path, old: str, new: str) -> Comparison:
    try:
        return diff.compare_places(folder, old, new)
    except (diff.NotComparable, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None


def _dead(older: Path | None, checked: Checked) -> tuple[Problem, ...]:
    """The addresses of an older list that would die; none where the records cannot become a site."""
    if older is None or errors(checked.problems):
        return ()
    now = set(permanent.public(checked.register))
    return tuple(dead(console.text_of(older), str(older), now))


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
def compare(old: str, new: str, folder: Path, form: str) -> None:
    """Tell what changes in the answers between OLD and NEW: project folders, or git revisions.

    Not the lines but what readers get: which serial numbers get another answer where, what is ordered
    otherwise, what stands otherwise, which questions open or close, which addresses are new or would die;
    or that nothing changes for readers. JSON follows schema/answer-compare.json; Markdown is cut below
    64 kB with a count.
    """
    found = _compared(folder, old, new)
    if form == "json":
        click.echo(json_text(json_forms.diff.as_object(found)))
    else:
        sections = diff_words.sections(found)
        text = form == "text"
        with commands_stopped(in_forge() and text):
            click.echo(text_forms.diff.as_text(sections) if text else text_forms.diff.as_markdown(sections))


def _explanation(name: str) -> str:
    if name == "all":
        return "\n".join(f"{rule.name} ({rule.severity}): {rule.reason}" for rule in rules.RULES.values())
    if name not in rules.RULES:
        raise click.ClickException(f"there is no problem named {name}; --explain all lists the names")
    return explanation(rules.RULES[name])
