"""Problems on standard output, in the form that was asked for."""

from __future__ import annotations

from collections.abc import Container, Sequence

import click

from spanbook import Problem
from spanbook.cli.forge_log import commands_stopped, in_forge
from spanbook.outputs.problems import github
from spanbook.outputs.problems.forms import FORMS


def tell_problems(
    problems: Sequence[Problem], records: int, form: str, files: Container[str] | None = None
) -> None:
    # Annotations are meant to be obeyed, and what other programs read is no place for marks.
    with commands_stopped(in_forge() and form == "text"):
        noted = form == "github"
        click.echo(github.as_commands(problems, records, files) if noted else FORMS[form](problems, records))
