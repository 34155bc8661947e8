"""The `spanbook` command."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from spanbook import building, reports, rules
from spanbook.api import open_register
from spanbook.asking import Asker
from spanbook.checking import Checked, check_folder
from spanbook.exports import ask_json, ask_text
from spanbook.fits import Fits
from spanbook.problems import Problem, Problems, Severity, errors
from spanbook.site import permanent, views
from spanbook.site.common import Site
from spanbook.site.documents import documents

_RULES = (*rules.RULES, permanent.ADDRESS_DEAD)
_FOLDER = click.argument("folder", default=".", type=click.Path(path_type=Path))


@click.group()
@click.version_option(package_name="spanbook")
def main() -> None:
    """Collectors' records of old machines, checked and turned into a reference site."""


@main.command()
@_FOLDER
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
@click.option("--format", "form", type=click.Choice(["text", "json"]), default="text", help="How to tell it.")
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
    tell = reports.as_json if form == "json" else reports.as_text
    click.echo(tell(problems, len(checked.register.records)))
    failing = {Severity.ERROR, Severity.WARNING} if strict else {Severity.ERROR}
    sys.exit(any(problem.severity in failing for problem in problems))


def _dead(older: Path | None, checked: Checked) -> tuple[Problem, ...]:
    """The addresses of an older list that would die; none where the records cannot become a site."""
    if older is None or errors(checked.problems):
        return ()
    pages = list(views.all_pages(Site(Fits(checked.register))))
    now = permanent.public(checked.register, pages)
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
@click.option(
    "--folder", default=".", type=click.Path(path_type=Path), help="The folder with content/ in it."
)
@click.option("--json", "as_json", is_flag=True, help="One JSON object for each query.")
def ask(query: str, folder: Path, as_json: bool) -> None:
    """Ask by serial number, part number, mark or words; `-` reads queries from standard input, one a line."""
    asker = _asker(folder)
    queries = (line.rstrip("\r\n") for line in sys.stdin) if query == "-" else [query]
    for one in queries:
        if as_json:
            click.echo(json.dumps(ask_json.as_object(asker, one), ensure_ascii=False))
        else:
            click.echo(ask_text.as_text(asker, one))


def _asker(folder: Path) -> Asker:
    try:
        register = open_register(folder)
    except (Problems, FileNotFoundError) as failure:
        raise click.ClickException(f"these records cannot be asked:\n{failure}") from None
    return Asker(register, documents(register))


def _explanation(name: str) -> str:
    by_name = {rule.name: rule for rule in _RULES}
    if name == "all":
        return "\n".join(f"{rule.name} ({rule.severity}): {rule.reason}" for rule in _RULES)
    if name not in by_name:
        raise click.ClickException(f"there is no problem named {name}; --explain all lists the names")
    return reports.explanation(by_name[name])
