"""Asking: by number or words, what to order, how to convert, what is open."""

from __future__ import annotations

from pathlib import Path

import click

from spanbook import BuildFailed, Condition, Plan, Wanted
from spanbook.cli import console
from spanbook.cli.answering import Question, answer, unanswered
from spanbook.cli.main import RECORDS, main
from spanbook.cli.opening import opened
from spanbook.ground.language import gettext as _
from spanbook.ground.language import marked
from spanbook.outputs.json import convert as convert_json
from spanbook.outputs.json import explain as explain_json
from spanbook.outputs.json import questions as questions_json
from spanbook.outputs.json import total as total_json
from spanbook.outputs.json_text import json_text
from spanbook.outputs.text import convert as convert_text
from spanbook.outputs.text import explain as explain_text
from spanbook.outputs.text import questions as questions_text
from spanbook.outputs.text import total as total_text


@main.command()
@click.argument("query", callback=console.argument)
@RECORDS
@click.option(
    "--order",
    type=click.IntRange(min=1),
    metavar="QUANTITY",
    help="What to order now for so many of a part number.",
)
@click.option(
    "--for",
    "serial",
    metavar="SERIAL",
    callback=console.argument,
    help="The machine it is for, by its serial number.",
)
@click.option(
    "--by",
    metavar="FIRM",
    callback=console.argument,
    help="Whose part number it is, where two firms have the same.",
)
@click.option(
    "--in",
    "year",
    type=click.IntRange(1700, 2200),
    metavar="YEAR",
    help="With --order: what the works would have sent in that year, by the acts made by then.",
)
@click.option(
    "--means",
    metavar="PART",
    callback=console.argument,
    help="Which part is meant, by its record's id, where a number has meant several things.",
)
@click.option(
    "--json",
    "as_json",
    is_flag=True,
    help="One JSON object for each query: schema/answer-ask.json, or schema/answer-order.json with --order.",
)
def ask(
    query: str,
    folder: Path,
    order: int | None,
    serial: str | None,
    by: str | None,
    year: int | None,
    means: str | None,
    as_json: bool,
) -> None:
    """Ask by serial number, part number, mark or words.

    `HK 588` is a serial number; a `?` in it stands for a worn digit, and `F 118 / HK 588` asks by two
    numbers of one machine. `-` reads queries from standard input, UTF-8, one a line; a line of NUMBER, tab,
    QUANTITY and perhaps tab, SERIAL asks what to order.
    """
    if year is not None and order is None and query != "-":
        raise click.UsageError(_("--in asks what was ordered in a year: say how many with --order"))
    register = opened(folder)
    if query != "-":
        try:
            wanted = Wanted(query, order, serial, by, year, means) if order else None
            click.echo(answer(register, Question(query, wanted), as_json))
        except LookupError as failure:
            raise click.ClickException(str(failure)) from None
        return
    unread = 0
    for line in console.lines():
        try:
            click.echo(answer(register, Question.of(line, by, year, means), as_json))
        except LookupError as failure:
            unread += 1
            click.echo(unanswered(register, line.split("\t")[0], failure, as_json))
    if unread:
        raise click.ClickException(_(UNREAD).format(unread))


# Every line has its answer; whoever reads them by program is told that some are none.
UNREAD = marked("lines that could not be asked: {}; each says why")


@main.command()
@RECORDS
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-questions.json."
)
def questions(folder: Path, as_json: bool) -> None:
    """Tell what is not known, the worthiest first, as questions that somebody can go and answer."""
    register = opened(folder)
    try:
        found = register.questions()
    except BuildFailed as failure:
        raise click.ClickException(str(failure)) from None
    if as_json:
        click.echo(json_text(questions_json.as_object(register, found)))
    else:
        click.echo(questions_text.as_text(register, found))


@main.command()
@click.argument("series", callback=console.argument)
@RECORDS
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-total.json."
)
def total(series: str, folder: Path, as_json: bool) -> None:
    """Say how far the series SERIES (its id) ran, by the numbers that were seen."""
    register = opened(folder)
    try:
        found = register.total(series)
    except LookupError as unknown:
        raise click.ClickException(
            _("{unknown}; there are {known}").format(unknown=unknown, known=", ".join(register.series))
        ) from None
    if as_json:
        click.echo(json_text(total_json.as_object(register.series[series], found)))
    else:
        click.echo(total_text.as_text(register.series[series], found))


@main.command()
@click.argument("serial", callback=console.argument)
@RECORDS
@click.option(
    "--from",
    "start",
    multiple=True,
    metavar="ASSEMBLY",
    help="An assembly that the machine holds, by its id; repeat it for several.",
)
@click.option(
    "--to",
    "goal",
    multiple=True,
    required=True,
    metavar="ASSEMBLY",
    help="An assembly wanted, by its id; repeat it for several. Or `works`, or `latest`.",
)
@click.option(
    "--in",
    "year",
    type=click.IntRange(1700, 2200),
    metavar="YEAR",
    help="How it could have been done in that year, by the conversions offered then.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-convert.json."
)
def convert(
    serial: str,
    folder: Path,
    start: tuple[str, ...],
    goal: tuple[str, ...],
    year: int | None,
    as_json: bool,
) -> None:
    """Say how the machine SERIAL is converted: each step with its parts, and what it needs first.

    What --from leaves out is taken as it left the works.
    """
    register = opened(folder)
    ready = goal in (("works",), ("latest",))
    try:
        wanted = None if ready else register.places(*goal)
        holds, latest = register.places(*start), goal == ("latest",)
        plan = register.convert(serial, wanted, holds, latest=latest, year=year)
    except LookupError as unknown:
        raise click.ClickException(str(unknown)) from None
    reading = next(reading for reading in register.read_serial(serial) if reading.issued)
    if as_json:
        click.echo(json_text(convert_json.as_object(register.answers, reading, serial, plan, year)))
    elif latest and isinstance(plan, Plan) and not plan.steps:
        click.echo(convert_text.no_further(register.answers, reading, holds, year))
    else:
        click.echo(convert_text.as_text(register.answers, reading, plan, year))


@main.command()
@click.argument("serial", callback=console.argument)
@RECORDS
@click.option(
    "--found",
    multiple=True,
    required=True,
    metavar="POSITION=ASSEMBLY",
    help="What was found there, by its id; repeat it for all that was found.",
)
@click.option(
    "--condition",
    type=click.Choice(["untouched", "likely-original", "altered", "unknown"]),
    default="unknown",
    help="In which it was found.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="The answer as one JSON object: schema/answer-explain.json."
)
def explain(serial: str, folder: Path, found: tuple[str, ...], condition: Condition, as_json: bool) -> None:
    """Say what may have happened to the machine SERIAL, which holds what it should not, the likeliest first.

    All that was found is weighed together: a second find out of place may tell of a changed plate.
    """
    register = opened(folder)
    try:
        explained = register.explain(serial, _places(found), condition)
    except (LookupError, BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None
    form = explain_json.as_object(register, serial, explained) if as_json else None
    click.echo(json_text(form) if form else explain_text.as_text(register, explained))


def _places(found: tuple[str, ...]) -> dict[str, str]:
    places: dict[str, str] = {}
    for one in found:
        position, equals, assembly = one.partition("=")
        if not equals or not position or not assembly:
            raise click.ClickException(
                _("--found {}: write POSITION=ASSEMBLY, as cooling/pump=gear-pump").format(one)
            )
        if position in places:
            raise click.ClickException(
                _("--found {one}: {position} was told already; one place holds one assembly").format(
                    one=one, position=position
                )
            )
        places[position] = assembly
    return places
