"""Reviewing: one proposal judged as it would be merged, the few lines first that a person decides on."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path

import click

import spanbook
from spanbook import BuildFailed, NoRevision, NotComparable, Proposals, Review
from spanbook.cli.forge_log import add_to_summary, commands_stopped, in_forge
from spanbook.cli.main import PROJECT, main
from spanbook.cli.telling import tell_problems
from spanbook.faces.reviewing import rules_address
from spanbook.ground.language import gettext as _
from spanbook.ground.punctuation import labelled
from spanbook.outputs import whole_file
from spanbook.outputs.problems import github
from spanbook.outputs.text import diff as diff_text
from spanbook.outputs.text.diff import MOST_MARKDOWN
from spanbook.wording import diff as diff_words
from spanbook.wording import headline, proposal, proposals
from spanbook.wording.problems import mended_words, older_words
from spanbook.wording.proposal import Section

# What `review` ends with when the records are sound and a person has to read more before they are taken in:
# what else is touched, or what only several proposals contradict.
TO_READ = 3
# The summary of a run also holds what changes for readers, and headlines.
_MOST_PROBLEMS = github.MOST_SUMMARY - MOST_MARKDOWN - 10_000


@main.command()
@click.argument("old")
@click.argument("new", required=False)
@PROJECT
@click.option("--all", "every", is_flag=True, help="Judge every open branch instead of NEW, and each two.")
@click.option(
    "--branches",
    multiple=True,
    metavar="PATTERN",
    help="With --all: which branches, as origin/* (the default); repeat it for several patterns.",
)
@click.option(
    "--format", "form", type=click.Choice(["text", "github"]), default="text", help="How to tell problems."
)
@click.option(
    "--report", type=click.Path(path_type=Path, dir_okay=False), help="A file for all of it, as Markdown."
)
def review(
    old: str,
    new: str | None,
    folder: Path,
    every: bool,
    branches: tuple[str, ...],
    form: str,
    report: Path | None,
) -> None:
    """Judge a proposal: check the revision NEW as it would be merged into OLD, then compare it with OLD.

    The first lines say what a person decides on, what can go wrong first. What OLD got since NEW began shows
    as nothing. Nothing of NEW is run, and its attributes have no say in the merge, which takes git 2.38 or
    newer. Ends with 1 when a file clashes, an address would die, or NEW brings errors or leaves all those
    that OLD has; and with 3 when none of this is so and files are touched that are no records: settings,
    workflows, hooks, guides. Somebody has to read those before the proposal is taken in.

    With --all each open branch is told in a line, and which two of them clash: in files that cannot both be
    merged, in things that both make something else of, or in what is sound in each and wrong with both. It
    also tells which contradict one another, as a teardown in one speaks against a span in the other, and
    against nothing without it. It ends with 1 when two clash, or one by itself has to be mended; and with 3
    when none of this is so and some contradict one another, or one touches files that are no records. That is
    no error, but somebody has to read it before they are taken in.
    """
    if every == (new is not None) or (branches and not every):
        raise click.UsageError(_("Give NEW, or --all in its place, with --branches if need be."))
    if new is None:
        review_all(folder, old, branches, form, report)
        return
    judged = _reviewed(folder, old, new)
    found = _findings(judged)
    problems, records = judged.fresh, len(judged.checked.register.records)
    remarks = [*filter(None, (mended_words(judged.mended, judged.older), older_words(judged.older)))]
    _print_short(found, form)
    tell_problems(problems, records, form, judged.changed)
    for line in remarks:
        click.echo(line)
    if found.told:
        with commands_stopped(in_forge() or form == "github"):
            click.echo(diff_text.as_text(found.changes))
    # Reading settings runs their hooks, so `check`, which may be given a proposal itself, never asks.
    summary = github.as_summary(problems, records, _MOST_PROBLEMS, rules_address(folder))
    told = (f"{line}\n" for line in remarks)
    page = "\n".join([*_short_page(found), summary, *told, *_changes_page(found)])
    if report:
        whole_file.replace(report, page)
    if form == "github":
        add_to_summary(page)
    if found.failure:
        raise click.ClickException(found.failure)
    sys.exit(1 if judged.broken or judged.dying else TO_READ if judged.touched else 0)


def review_all(folder: Path, old: str, branches: tuple[str, ...], form: str, report: Path | None) -> None:
    """Judge all that is open; the same exits and outputs as for one proposal."""
    try:
        found = spanbook.review_all(folder, old, branches)
    except (NoRevision, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None
    title, sections = proposals.title(len(found.each), old), tuple(_all_sections(found))
    with commands_stopped(in_forge() or form == "github"):
        click.echo(diff_text.as_text(sections))
    page = diff_text.as_markdown(sections, title)
    if report:
        whole_file.replace(report, page)
    if form == "github":
        add_to_summary(page)
    broken = found.pairs or found.together or not all(one.sound for one in found.each)
    more = any(one.touches_more for one in found.each)
    sys.exit(1 if broken else TO_READ if found.against or found.against_together or more else 0)


def _all_sections(found: Proposals) -> Iterator[Section]:
    for pair in found.pairs:
        yield proposals.pair_section(pair.one, pair.other, pair.lines)
    for pair in found.against:
        yield proposals.contradict_section(pair.one, pair.other, pair.lines)
    if together := (*found.together, *found.against_together):
        yield Section(proposals.together(), together)
    lines = [labelled(one.branch, one.line) for one in found.each]
    if found.left_off:
        lines.append(proposals.left_off_words(found.left_off))
    if not (found.pairs or found.against) and found.each[1:]:
        lines.append(proposals.none_clash())
    if not found.each:
        lines.append(proposals.none_open(found.patterns))
    yield Section(proposals.title(len(found.each), found.main), tuple(lines), counted=False)


def _reviewed(folder: Path, old: str, new: str) -> Review:
    try:
        return spanbook.review(folder, old, new)
    except NoRevision as missing:
        raise click.ClickException(str(missing)) from None


@dataclass(slots=True)
class _Findings:
    """What a review tells besides problems, as far as it is known; `failure` says why no more is.

    `heads` have to be known before anything else: title, text, and the command that shows them at a forge.
    """

    heads: list[tuple[str, str, Callable[[str, str], str]]] = field(default_factory=list)
    short: tuple[str, ...] = ()
    changes: tuple[Section, ...] = ()
    compared: bool = False
    failure: str = ""

    @property
    def told(self) -> bool:
        """Whether it can say what changes, or that nothing does."""
        return self.compared or bool(self.changes)


def _findings(judged: Review) -> _Findings:
    found = _Findings()
    try:
        for head in _heads(judged):
            found.heads.append(head)
        if compared := judged.comparison:
            found.short = headline.in_short(compared)
            found.compared = True
        found.changes = tuple(_changes(judged))
    except (NoRevision, NotComparable, BuildFailed) as failure:
        found.failure = str(failure)
    return found


def _heads(judged: Review) -> Iterator[tuple[str, str, Callable[[str, str], str]]]:
    if judged.clashes:
        yield _("Clashes"), proposal.clash_headline(judged.clashes), github.error
    if text := proposal.headline(judged.touched):
        yield _("Not records alone"), text, github.warning
    # Last, for where there are no old records it cannot be told.
    if judged.dying:
        yield _("Addresses would die"), proposal.dying_headline(judged.dying), github.error


def _changes(judged: Review) -> Iterator[Section]:
    if judged.clashes:
        yield proposal.clash_section(judged.clashes)
    if found := judged.comparison:
        yield from headline.below(found)
        return
    # What changes for readers cannot be told of broken records; what else is touched can.
    yield from proposal.besides(judged.touched)
    if judged.mended and (records := [path for path in judged.changed or () if path not in judged.touched]):
        yield proposal.untold_section(sorted(records))


def _print_short(found: _Findings, form: str) -> None:
    for title, text, command in found.heads:
        click.echo(command(title, text) if form == "github" else text)
    if found.short:
        with commands_stopped(in_forge() or form == "github"):
            click.echo(diff_text.as_text([headline.section(found.short)]))


def _short_page(found: _Findings) -> Iterator[str]:
    yield from (f"# {text}\n" for _, text, _ in found.heads)
    if found.short:
        yield diff_text.as_list(found.short, headline.title())


def _changes_page(found: _Findings) -> Iterator[str]:
    if found.told:
        title = diff_words.title() if found.compared else diff_words.title_besides()
        yield diff_text.as_markdown(found.changes, title)
