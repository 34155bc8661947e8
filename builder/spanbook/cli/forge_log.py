"""The log of a forge's runner, which obeys what a command prints, and the summary that it shows."""

from __future__ import annotations

import os
import secrets
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import click

from spanbook.outputs.problems import github
from spanbook.outputs.text.failure import about


def in_forge() -> bool:
    """Whether a runner reads what is printed; Forgejo's and Gitea's set the same variable as GitHub's."""
    return os.environ.get("GITHUB_ACTIONS") == "true"


@contextmanager
def commands_stopped(wanted: bool, err: bool = False) -> Iterator[None]:
    """Inside it, the runner obeys no line that is printed: strangers' text may stand there as it is.

    The mark that ends it cannot be guessed. As in GitHub's "Stopping and starting workflow commands".
    """
    if not wanted:
        yield
        return
    token = secrets.token_hex(20)
    click.echo(f"::stop-commands::{token}", err=err)
    try:
        yield
    finally:
        click.echo(f"::{token}::", err=err)


def add_to_summary(text: str) -> None:
    """Where GitHub shows what a step has to say, if it runs there; below what it takes of a step in all."""
    if page := os.environ.get("GITHUB_STEP_SUMMARY"):
        with about(page), Path(page).open("a", encoding="utf-8") as file:
            file.write(github.cut(text, github.MOST_SUMMARY - file.tell()))
