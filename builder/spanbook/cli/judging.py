"""Judging: whether records can be shown, and what a proposal changes for readers."""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Sequence
from pathlib import Path

import click

from spanbook import rules
from spanbook.answers.diff.model import Comparison
from spanbook.cli.main import FOLDER, PROJECT, main
from spanbook.faces import diff
from spanbook.mkdocs.build import BuildFailed
from spanbook.outputs import json as json_forms
from spanbook.outputs import text as text_forms
from spanbook.outputs.problems import FORMS, github
from spanbook.outputs.problems.text import explanation
from spanbook.reading import git_tree
from spanbook.reading.problems import Problem, Severity, errors
from spanbook.reading.record_cache import known_of
from spanbook.rules.checking import Checked, check_folder, check_tree
from spanbook.site import permanent
from spanbook.wording import diff as diff_words

_RULES = (*rules.RULES, permanent.ADDRESS_DEAD)


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
    click.echo(FORMS[form](problems, records))
    if form == "github":
        _add_to_summary(github.as_summary(problems, records))
    sys.exit(_fails(problems, strict))


def _checked(folder: Path, at: str | None) -> Checked:
    try:
        if at is None:
            return check_folder(folder)
        with known_of(folder / "content") as known:
            return check_tree(git_tree.content_at(folder, at), "content", known)
    except FileNotFoundError as missing:
        raise click.ClickException(f"{missing}; name the folder that has content/ in it") from None
    except git_tree.NoRevision as missing:
        raise click.ClickException(str(missing)) from None


def _fails(problems: Sequence[Problem], strict: bool) -> bool:
    failing = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    return any(problem.severity in failing for problem in problems)


def _add_to_summary(text: str) -> None:
    """Where GitHub shows what a step has to say, if it runs there."""
    if page := os.environ.get("GITHUB_STEP_SUMMARY"):
        with Path(page).open("a", encoding="utf-8") as file:
            file.write(text)


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
    """Judge a proposal: check the revision NEW, then compare it with OLD. Nothing of NEW is run."""
    checked = _checked(folder, new)
    records = len(checked.register.records)
    click.echo(FORMS[form](checked.problems, records))
    told = [github.as_summary(checked.problems, records)]
    try:
        if not errors(checked.problems):
            sections = tuple(diff_words.sections(_compared(folder, old, new)))
            click.echo(text_forms.diff.as_text(sections))
            told.append(text_forms.diff.as_markdown(sections))
        elif paths := git_tree.touched_besides(folder, old, new):
            # What changes for readers cannot be told yet; what else is touched has to be looked at even so.
            sections = tuple(diff_words.besides(paths))
            click.echo(text_forms.diff.as_text(sections))
            told.append(text_forms.diff.as_markdown(sections, diff_words.TITLE_BESIDES))
    except git_tree.NoRevision as missing:
        raise click.ClickException(str(missing)) from None
    finally:
        if report:
            report.write_text("\n".join(told), encoding="utf-8")
        if form == "github":
            _add_to_summary("\n".join(told))
    sys.exit(_fails(checked.problems, strict=False))


def _compared(folder: Path, old: str, new: str) -> Comparison:
    try:
        return diff.compare_places(folder, old, new)
    except (diff.NotComparable, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None


def _dead(older: Path | None, checked: Checked) -> tuple[Problem, ...]:
    """The addresses of an older list that would die; none where the records cannot become a site."""
    if older is None or errors(checked.problems):
        return ()
    now = permanent.public(checked.register)
    return tuple(permanent.dead(older.read_text(encoding="utf-8"), str(older), now))


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
        click.echo(json.dumps(json_forms.diff.as_object(found), ensure_ascii=False))
    else:
        sections = diff_words.sections(found)
        text = form == "text"
        click.echo(text_forms.diff.as_text(sections) if text else text_forms.diff.as_markdown(sections))


def _explanation(name: str) -> str:
    by_name = {rule.name: rule for rule in _RULES}
    if name == "all":
        return "\n".join(f"{rule.name} ({rule.severity}): {rule.reason}" for rule in _RULES)
    if name not in by_name:
        raise click.ClickException(f"there is no problem named {name}; --explain all lists the names")
    return explanation(by_name[name])
