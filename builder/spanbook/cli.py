"""The `spanbook` command."""

from __future__ import annotations

import json
import os
import sys
from dataclasses import dataclass
from pathlib import Path

import click

from spanbook import building, comparing, reports, rules
from spanbook.api import OpenRegister, open_register
from spanbook.asking import Asker
from spanbook.checking import Checked, check_folder
from spanbook.exports import (
    ask_json,
    ask_text,
    compare_json,
    compare_words,
    convert_answer,
    order_json,
    order_text,
    questions_json,
)
from spanbook.problems import Problem, Problems, Severity, errors
from spanbook.site import permanent
from spanbook.site.common import Site
from spanbook.site.documents import documents
from spanbook.supersession import orders

_RULES = (*rules.RULES, permanent.ADDRESS_DEAD)
_RECORDS = click.option(
    "--folder", default=".", type=click.Path(path_type=Path), help="The folder with content/ in it."
)
_FOLDER = click.argument("folder", default=".", type=click.Path(path_type=Path))


@click.group()
@click.version_option(package_name="spanbook")
def main() -> None:
    """Collectors' records of old machines, checked and turned into a reference site."""


@main.command()
@_FOLDER
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
@click.option(
    "--format", "form", type=click.Choice(list(reports.FORMS)), default="text", help="How to tell it."
)
@click.option(
    "--addresses",
    type=click.Path(path_type=Path, exists=True, dir_okay=False),
    help="An older site's addresses.txt: fail if one of its addresses would die.",
)
@click.option("--explain", metavar="NAME", help="Explain one problem; `all` lists the names.")
def check(folder: Path, strict: bool, form: str, addresses: Path | None, explain: str | None) -> None:
    """Check the records of FOLDER (a project, or its content folder) and tell every problem."""
    if explain is not None:
        click.echo(_explanation(explain))
        return
    try:
        checked = check_folder(folder)
    except FileNotFoundError as missing:
        raise click.ClickException(f"{missing}; name the folder that has content/ in it") from None
    problems = (*checked.problems, *_dead(addresses, checked))
    records = len(checked.register.records)
    click.echo(reports.FORMS[form](problems, records))
    if form == "github" and (page := os.environ.get("GITHUB_STEP_SUMMARY")):
        with Path(page).open("a", encoding="utf-8") as file:
            file.write(reports.github.as_summary(problems, records))
    failing = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    sys.exit(any(problem.severity in failing for problem in problems))


@main.command()
@click.argument("old")
@click.argument("new")
@click.option("--folder", default=".", type=click.Path(path_type=Path), help="The project, under git.")
@click.option(
    "--format",
    "form",
    type=click.Choice(["text", "markdown", "json"]),
    default="text",
    help="How to tell it.",
)
def compare(old: str, new: str, folder: Path, form: str) -> None:
    """Tell what changes in the answers between OLD and NEW: project folders, or git revisions."""
    try:
        found = comparing.compare_places(folder, old, new)
    except (comparing.NotComparable, building.BuildFailed) as failure:
        raise click.ClickException(str(failure)) from None
    if form == "json":
        click.echo(json.dumps(compare_json.as_object(found), ensure_ascii=False))
    else:
        click.echo(compare_words.as_text(found) if form == "text" else compare_words.as_markdown(found))


def _dead(older: Path | None, checked: Checked) -> tuple[Problem, ...]:
    """The addresses of an older list that would die; none where the records cannot become a site."""
    if older is None or errors(checked.problems):
        return ()
    now = permanent.public(checked.register)
    return tuple(permanent.dead(older.read_text(encoding="utf-8"), str(older), now))


@main.command()
@_FOLDER
@click.option("--site", type=click.Path(path_type=Path), help="Where the site goes; FOLDER/site otherwise.")
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
def build(folder: Path, site: Path | None, strict: bool) -> None:
    """Build the site of FOLDER. If that fails, the previous site stays as it was."""
    try:
        built = building.build(folder, site, strict, lambda text: click.echo(text, err=True))
    except building.BuildFailed as failure:
        raise click.ClickException(
            f"nothing was built, and the previous site is as it was. {failure}"
        ) from None
    click.echo(f"Built {built.pages} pages in {built.seconds:.1f} s: {built.folder}")


@main.command()
@_FOLDER
@click.option("--address", default="127.0.0.1:8000", help="Where to serve: HOST:PORT.")
def serve(folder: Path, address: str) -> None:
    """Serve the site of FOLDER and rebuild it when a record changes."""
    try:
        building.serve(folder, address, lambda text: click.echo(text, err=True))
    except building.BuildFailed as failure:
        raise click.ClickException(str(failure)) from None


@main.command()
@click.argument("query")
@_RECORDS
@click.option("--order", type=click.IntRange(min=1), help="What to order now for so many of a part number.")
@click.option("--for", "serial", help="The machine it is for, by its serial number.")
@click.option("--by", help="Whose part number it is, where two firms have the same.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object for each query.")
def ask(
    query: str, folder: Path, order: int | None, serial: str | None, by: str | None, as_json: bool
) -> None:
    """Ask by serial number, part number, mark or words.

    `-` reads queries from standard input, one a line; a line of NUMBER, tab, QUANTITY and perhaps tab,
    SERIAL asks what to order.
    """
    asker = _asker(folder)
    if query != "-":
        click.echo(_answer(asker, Question(query, order, serial, by), as_json))
        return
    for line in sys.stdin:
        click.echo(_answer(asker, Question.of(line.rstrip("\r\n"), by), as_json))


@dataclass(frozen=True, slots=True)
class Question:
    """A query, and how many to order for which machine when that is what is asked."""

    query: str
    quantity: int | None
    serial: str | None
    by: str | None

    @classmethod
    def of(cls, line: str, by: str | None) -> Question:
        query, quantity, serial = [*line.split("\t"), "", ""][:3]
        if not quantity:
            return cls(query, None, serial or None, by)
        if not quantity.isascii() or not quantity.isdigit() or int(quantity) == 0:
            raise click.ClickException(f"the quantity {quantity!r} of {query} is not a whole number above 0")
        return cls(query, int(quantity), serial or None, by)


def _answer(asker: Asker, asked: Question, as_json: bool) -> str:
    register = asker.register
    if asked.quantity is None:
        if as_json:
            return json.dumps(ask_json.as_object(asker, asked.query), ensure_ascii=False)
        return ask_text.as_text(asker, asked.query)
    assert isinstance(register, OpenRegister), "the command asks an open register"
    try:
        need = register.order_now(asked.query, asked.quantity, asked.serial, asked.by)
    except LookupError as unknown:
        raise click.ClickException(str(unknown)) from None
    found = orders(register, need)
    if as_json:
        made = order_json.as_object(register, asked.query, asked.serial, need, found)
        return json.dumps(made, ensure_ascii=False)
    return order_text.as_text(Site(asker.fits), need, found)


def _asker(folder: Path) -> Asker:
    try:
        register = open_register(folder)
    except (Problems, FileNotFoundError) as failure:
        raise click.ClickException(f"these records cannot be asked:\n{failure}") from None
    return Asker(register, documents(register))


@main.command()
@_RECORDS
@click.option("--json", "as_json", is_flag=True, help="The answer as one JSON object.")
def questions(folder: Path, as_json: bool) -> None:
    """Tell what is not known, the worthiest first, as questions that somebody can go and answer."""
    try:
        rates = building.rates_of(folder)
    except building.BuildFailed as failure:
        raise click.ClickException(str(failure)) from None
    found = Site(_asker(folder).fits, rates).questions
    if as_json:
        click.echo(json.dumps(questions_json.as_object(found), ensure_ascii=False))
    else:
        click.echo("\n".join(f"{question.worth:6.0f}  {question.words}" for question in found))


@main.command()
@click.argument("serial")
@_RECORDS
@click.option("--from", "start", multiple=True, help="An assembly that the machine holds, by its id.")
@click.option(
    "--to", "goal", multiple=True, required=True, help="An assembly wanted, or `works` or `latest`."
)
@click.option("--json", "as_json", is_flag=True, help="The answer as one JSON object.")
def convert(serial: str, folder: Path, start: tuple[str, ...], goal: tuple[str, ...], as_json: bool) -> None:
    """Say how the machine SERIAL is converted: each step with its parts, and what it needs first."""
    asker = _asker(folder)
    register = asker.register
    assert isinstance(register, OpenRegister), "the command asks an open register"
    ready = goal in (("works",), ("latest",))
    try:
        wanted = None if ready else _places(register, goal)
        plan = register.convert(serial, wanted, _places(register, start), latest=goal == ("latest",))
    except LookupError as unknown:
        raise click.ClickException(str(unknown)) from None
    made = convert_answer.as_object(register, serial, plan)
    click.echo(json.dumps(made, ensure_ascii=False) if as_json else convert_answer.as_text(register, made))


def _places(register: OpenRegister, ids: tuple[str, ...]) -> dict[str, str]:
    """Assemblies by their positions. Raises LookupError for one that no record has."""
    for id_ in ids:
        if id_ not in register.assemblies:
            raise LookupError(f"no record has the assembly {id_}; its id is the end of its page's address")
    return {register.assemblies[id_].position: id_ for id_ in ids}


def _explanation(name: str) -> str:
    by_name = {rule.name: rule for rule in _RULES}
    if name == "all":
        return "\n".join(f"{rule.name} ({rule.severity}): {rule.reason}" for rule in _RULES)
    if name not in by_name:
        raise click.ClickException(f"there is no problem named {name}; --explain all lists the names")
    return reports.words.explanation(by_name[name])
