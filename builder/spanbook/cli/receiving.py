"""Receiving: what somebody sent is judged as it would stand among the records, and laid to be looked at."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import click

import spanbook
from spanbook import CannotChange, NoPacket, NoRevision, Receipt
from spanbook.cli.forge_log import commands_stopped, in_forge
from spanbook.cli.main import RECORDS, main
from spanbook.ground.language import gettext as _
from spanbook.outputs.json import receive as receive_json
from spanbook.outputs.json.receive import Where
from spanbook.outputs.json_text import json_text
from spanbook.wording import headline
from spanbook.wording import receiving as words


@main.command()
@click.argument("packet", type=click.Path(path_type=Path, exists=True, dir_okay=False))
@RECORDS
@click.option("--branch", is_flag=True, help="Lay it as a branch of its own; your files stay as they are.")
@click.option(
    "--into",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Lay its files in a new folder, or take them in where FOLDER is the community's own.",
)
@click.option("--onto", metavar="REVISION", help="Judge it by the records of a revision; HEAD with --branch.")
@click.option("--replace", is_flag=True, help="Let it replace what it does not say it corrects.")
@click.option(
    "--beside", is_flag=True, help="Lay what has the name of something else under a name of its own."
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object: schema/answer-receive.json.")
def receive(
    packet: Path,
    folder: Path,
    branch: bool,
    into: Path | None,
    onto: str | None,
    replace: bool,
    beside: bool,
    as_json: bool,
) -> None:
    """Judge PACKET, which somebody made with a form of the site, and lay it where it can be looked at.

    It is held to all that other files are, then to what the records would be with it; that is told first.
    With neither --branch nor --into nothing is written. All of it is laid or nothing, and nothing that is
    there is replaced unless the packet says that it corrects it, and how it was then. A record that has
    the name of another, because two wrote of one machine on one day, is laid under another --beside it.
    """
    if branch and into:
        raise click.UsageError(_("Give --branch or --into, not both."))
    try:
        found = spanbook.receive(folder, packet, onto=onto or ("HEAD" if branch else None), beside=beside)
    except NoPacket as wrong:
        why = words.no_packet(wrong.findings)
        if as_json:
            click.echo(json_text(receive_json.refused_object(wrong.findings, why)))
        raise click.ClickException(why) from None
    except NoRevision as missing:
        raise click.ClickException(str(missing)) from None
    if not as_json:
        with commands_stopped(in_forge()):
            click.echo("\n".join(_told(found)))
    where = _laid(found, branch, into, replace)
    if as_json:
        click.echo(json_text(_object(found, where)))
    if where.refused:
        told_above = found.spoils and not as_json
        raise click.ClickException(words.spoilt_as_told() if told_above else where.refused)
    if not as_json:
        click.echo(_where_words(where, folder))


def _told(found: Receipt) -> Iterator[str]:
    yield from words.head_lines(found.packet, found.site)
    yield words.in_it()
    for one in found.files:
        yield words.file_line(one.path, one.how, anew=one.anew, sent_as=one.sent_as)
        yield from map(words.lost_line, one.remarks)
    if found.packet.left_out:
        yield words.left_out_line(found.packet.left_out)
    if found.problems:
        yield words.wrong()
        yield from (f"  {problem}" for problem in found.problems)
    if found.comparison is None:
        yield words.untold()
    elif changes := tuple(_changes(found)):
        yield words.changes()
        yield from (f"  {change}" for change in changes)
    else:
        yield words.no_change()


def _changes(found: Receipt) -> Iterator[str]:
    return iter(headline.in_short(found.comparison) if found.comparison else ())


def _laid(found: Receipt, branch: bool, into: Path | None, replace: bool) -> Where:
    try:
        if branch:
            return Where(branch=found.lay_branch(replace=replace))
        if into:
            found.lay_folder(into, replace=replace)
            return Where(folder=str(into))
    except (CannotChange, NoRevision) as why:
        return Where(refused=str(why))
    return Where(refused=found.refused)


def _where_words(where: Where, folder: Path) -> str:
    if where.branch:
        return words.laid_branch(where.branch)
    if where.folder:
        return words.laid_folder(where.folder, own=Path(where.folder).resolve() == folder.resolve())
    return words.not_asked()


def _object(found: Receipt, where: Where) -> receive_json.Object:
    files = [(one.path, str(one.how), one.anew) for one in found.files]
    return receive_json.as_object(found.packet, files, found.problems, tuple(_changes(found)), where)
