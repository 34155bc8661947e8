"""Making: a new community, a new record, the site."""

from __future__ import annotations

import gc
import sys
from pathlib import Path
from typing import Any

import click

import spanbook
from spanbook import BuildFailed, NotStarted, Problems
from spanbook.cli import console
from spanbook.cli.forge_log import commands_stopped, in_forge
from spanbook.cli.main import FOLDER, RECORDS, main
from spanbook.cli.progress import Bar
from spanbook.faces import program, prompt
from spanbook.faces.prompt import ENTERED, Field
from spanbook.ground.language import gettext as _
from spanbook.ground.language import languages, speak
from spanbook.outputs import whole_file
from spanbook.outputs.folder import archive as archives
from spanbook.outputs.text.failure import sentence
from spanbook.reading.problems import one_line
from spanbook.wording.changes_built import changes_listed, changes_told, same_told
from spanbook.wording.grammar import decimals
from spanbook.wording.hosts import size_told, too_large


@main.command()
@FOLDER
@click.option(
    "--site",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    help="Where the site goes; FOLDER/site otherwise.",
)
@click.option("--strict", is_flag=True, help="Fail on warnings too.")
@click.option("--anew", is_flag=True, help="Build even where nothing has changed.")
@click.option(
    "--changes",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="List in FILE which files of the site are new, changed or gone since the site that was there.",
)
@click.option(
    "--archive",
    metavar="FILE",
    type=click.Path(path_type=Path, dir_okay=False),
    help="Write all of the site into one FILE as well: .zip, .tar or .tar.gz.",
)
@click.option(
    "--jobs",
    metavar="NUMBER",
    type=click.IntRange(min=1),
    help="How many processes make it; otherwise as many as there are cores to use, and 1 below 200 records, "
    "where a second takes longer to begin than it saves.",
)
def build(
    folder: Path,
    site: Path | None,
    strict: bool,
    anew: bool,
    changes: Path | None,
    archive: Path | None,
    jobs: int | None,
) -> None:
    """Build the site of FOLDER. If that fails, the previous site stays as it was."""
    _allow((site or folder / "site").resolve(), changes, archive)
    try:
        with commands_stopped(in_forge(), err=True), Bar(_("Pages"), _say) as bar:
            built = spanbook.build(
                folder, site, strict=strict, anew=anew, say=bar.say, step=bar.step, jobs=jobs
            )
    except BuildFailed as failure:
        raise click.ClickException(
            _("nothing was built, and the previous site is as it was. {}").format(failure)
        ) from None
    if built.changes:
        click.echo(
            _("Built {count} pages in {seconds} s: {folder}").format(
                count=built.pages, seconds=decimals(f"{built.seconds:.1f}"), folder=built.folder
            )
        )
    else:
        click.echo(same_told(built.folder))
    click.echo(size_told(built.size))
    if built.changes:
        click.echo(changes_told(built.changes))
    try:
        if changes:
            whole_file.replace(changes, changes_listed(built.changes) if built.changes else "")
        if archive:
            archives.lay(built.folder, archive)
    except OSError as failure:
        raise click.ClickException(
            _("the site is built, and this is not: {}").format(sentence(failure))
        ) from None
    for why in too_large(built.size):
        click.echo(_("Warning: {}").format(why), err=True)


def _allow(site: Path, changes: Path | None, archive: Path | None) -> None:
    """Say before anything is built what cannot be written beside the site."""
    for file in filter(None, (changes, archive)):
        if file.resolve().is_relative_to(site):
            raise click.ClickException(
                _("{}: it lies in the site, which would no longer be one; name another").format(file)
            )
    if archive and archives.ending(archive) is None:
        raise click.ClickException(
            _("{}: its name says no sort of archive; end it in .zip, .tar or .tar.gz").format(archive)
        )


def _say(text: str) -> None:
    """What a build tells on its way, which may name strangers' files and words."""
    click.echo("\n".join(map(one_line, text.split("\n"))), err=True)


@main.command()
@FOLDER
@click.option(
    "--address",
    default="127.0.0.1:8000",
    metavar="HOST:PORT",
    help="Where to serve; 127.0.0.1:8000 unless named.",
)
def serve(folder: Path, address: str) -> None:
    """Serve the site of FOLDER and rebuild it when a record changes."""
    gc.enable()  # this one runs for days
    try:
        spanbook.serve(folder, address, say=_say)
    except BuildFailed as failure:
        raise click.ClickException(str(failure)) from None


@main.command()
@click.argument("folder", type=click.Path(path_type=Path))
@click.option(
    "--name",
    metavar="NAME",
    callback=console.argument,
    help="What the site is called; otherwise as the folder.",
)
@click.option(
    "--program",
    "named",
    metavar="SOURCE",
    help="Where its workflows get the program, as `spanbook program` takes it.",
)
@click.option(
    "--licence",
    metavar="SPDX",
    callback=console.argument,
    help="Under which licence its records are given, as CC0-1.0 or CC-BY-4.0; asked for on a terminal.",
)
@click.option(
    "--language",
    default="en",
    metavar="LANGUAGE",
    callback=console.argument,
    help="In which language the site is told: en, de for German, fr for French.",
)
def start(folder: Path, name: str | None, named: str | None, licence: str | None, language: str) -> None:
    """Make a fresh community in FOLDER: settings, one example of each kind, workflows, a guide."""
    if language in languages():
        speak(language)
    if licence is None and sys.stdin.isatty():
        licence = _licence()
    try:
        source = program.source_of(named) if named else program.own_source()
        called = name or one_line(folder.resolve().name)
        made = spanbook.start(folder, called, source, licence or None, language)
    except (program.NoSource, NotStarted) as failure:
        raise click.ClickException(str(failure)) from None
    click.echo("\n".join(f"  {path}" for path in made))
    click.echo(
        _("Made {folder}. Look at it with: {command}").format(
            folder=folder, command=f"spanbook serve {folder}"
        )
    )
    if not licence:
        click.echo(_("Nobody has said yet under which licence its records are given: say it in mkdocs.yml."))
    if source is None:
        click.echo(
            _("Its workflows do nothing before: {}").format(f"spanbook program SOURCE --folder {folder}")
        )


def _licence() -> str:
    """What somebody says on a terminal; nothing where that is not known yet."""
    click.echo(
        _("Under which licence may others use the records? It stands on every page and in every file.")
    )
    click.echo(
        _("CC0-1.0: for anything. CC-BY-4.0: for anything, if they name you. CC-BY-SA-4.0: and share alike.")
    )
    return str(click.prompt(_("Licence, or Enter"), default="", show_default=False)).strip()


@main.command("program")
@click.argument("source")
@RECORDS
def program_(source: str, folder: Path) -> None:
    """Say where the workflows of a community get the program: SOURCE is a wheel, or a full commit in git.

    A wheel is laid in the folder with its hash; a commit is named as git+https://HOST/PATH@COMMIT. What the
    program needs is locked by hashes beside it. A name alone is not taken: whoever publishes a name decides
    what it is.
    """
    if not (folder / "mkdocs.yml").is_file():
        raise click.ClickException(_("{}: there is no mkdocs.yml, so it is no community").format(folder))
    try:
        made = program.lay(program.source_of(source), folder)
    except program.NoSource as failure:
        raise click.ClickException(str(failure)) from None
    click.echo("\n".join(f"  {path}" for path in made))


@main.command()
@FOLDER
@click.option(
    "--into",
    metavar="FOLDER",
    type=click.Path(path_type=Path, file_okay=False),
    help="Where they go; .schema in FOLDER otherwise, where the editor's settings look for them.",
)
def schema(folder: Path, into: Path | None) -> None:
    """Write the schemas for an editor, in which FOLDER's own records are the choices and the examples.

    Run it again when much has been added: what is not among the choices yet is allowed all the same.
    """
    made = spanbook.write_schemas(folder, into)
    click.echo(_("Wrote {count} schemas into {folder}.").format(count=len(made), folder=made[0].parent))


@main.command()
@click.argument("kind", type=click.Choice(ENTERED))
@RECORDS
def new(kind: str, folder: Path) -> None:
    """Ask for a record of KIND, field by field, and write its file. Enter passes over what is not known."""
    try:
        spanbook.record_text(folder, {"kind": kind})  # before anything is typed that could be lost
    except BuildFailed as failure:
        raise click.ClickException(str(failure)) from None
    values = prompt.enter(kind, prompt.Asker(_answer, _more))
    try:
        file = spanbook.write_record(folder, values)
    except BuildFailed as failure:
        raise click.ClickException(str(failure)) from None
    except Problems as wrong:
        raise _not_written(folder, values, str(wrong)) from None
    except FileExistsError as there:
        raise _not_written(folder, values, _("{}; correct it, or choose another id").format(there)) from None
    except OSError as failure:
        raise _not_written(folder, values, sentence(failure)) from None
    click.echo(_("Wrote {file}. Now: {command}").format(file=file, command=f"spanbook check {folder}"))


def _not_written(folder: Path, values: dict[str, Any], why: str) -> click.ClickException:
    """What was typed is not lost with the file."""
    made = spanbook.record_text(folder, values)
    return click.ClickException(
        _("nothing was written. This is what was made of it:\n{made}\n{why}").format(made=made, why=why)
    )


def _answer(field: Field, hint: str) -> str:
    def sound(text: str) -> str:
        if console.unread(text):
            raise click.UsageError(_("that is not UTF-8, which is what is read here; type it again"))
        if problem := prompt.wrong(field, text.strip()):
            raise click.UsageError(problem)
        return text.strip()

    click.echo(
        f"\n{field.help}" + (" " + _("For example: {}").format(field.example) if field.example else "")
    )
    choices = f" ({', '.join(field.choices)})" if field.choices else ""
    title = field.title + choices + ("" if field.required else _(", or Enter"))
    return str(click.prompt(title, default=hint, show_default=bool(hint), value_proc=sound))


def _more(field: Field, count: int) -> bool:
    question = _("{title}: another ({what})?") if count else _("{title}: add ({what})?")
    return console.agreed("\n" + question.format(title=field.title, what=field.item or field.title))
