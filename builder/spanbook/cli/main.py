"""The command that all others hang from, and what several of them take."""

from __future__ import annotations

import atexit
import gc
from collections.abc import Iterator
from contextlib import contextmanager
from importlib import import_module
from pathlib import Path
from typing import Any

import click

from spanbook.cli import console
from spanbook.cli.commands import COMMANDS


def _speaking(_: click.Context, __: click.Parameter, folder: Path) -> Path:
    """A project's folder; what is told of it from here on is told in its language."""
    from spanbook import speak_for  # nothing else is loaded for a command's help

    speak_for(folder)
    return folder


RECORDS = click.option(
    "--folder",
    default=".",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    callback=_speaking,
    help="The folder with content/ in it; the current one unless named.",
)
PROJECT = click.option(
    "--folder",
    default=".",
    metavar="FOLDER",
    type=click.Path(path_type=Path),
    callback=_speaking,
    help="The project, under git; the current folder unless named.",
)
FOLDER = click.argument("folder", default=".", type=click.Path(path_type=Path), callback=_speaking)


@contextmanager
def _told() -> Iterator[None]:
    try:
        yield
    except BrokenPipeError:  # whoever read what was told has seen enough
        raise
    except OSError as failure:
        from spanbook.outputs.text.failure import sentence  # nothing else is loaded for a command's help

        raise click.ClickException(sentence(failure)) from None


class Commands(click.Group):
    """Every command ends with a sentence when the system refuses something: no right, no room, no folder.

    A command's module is loaded when it is called.
    """

    def list_commands(self, ctx: click.Context) -> list[str]:
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        if cmd_name in COMMANDS:
            import_module(f"spanbook.cli.{COMMANDS[cmd_name][0]}")
        return super().get_command(ctx, cmd_name)

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        with formatter.section("Commands"):
            formatter.write_dl([(name, first) for name, (_, first) in sorted(COMMANDS.items())])

    def main(self, *args: Any, **extra: Any) -> Any:
        console.ready()
        return super().main(*args, **extra)

    def make_context(self, *args: Any, **extra: Any) -> click.Context:  # prints help and the version
        with _told():
            return super().make_context(*args, **extra)

    def invoke(self, ctx: click.Context) -> object:
        with _told():
            return super().invoke(ctx)


@click.group(cls=Commands)
@click.version_option(package_name="spanbook")
def main() -> None:
    """Collectors' records of old machines, checked and turned into a reference site."""
    # A command keeps what it makes until it ends: looking for what could be let go costs a third of its time.
    gc.disable()
    atexit.register(gc.freeze)
