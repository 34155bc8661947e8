"""How far long work has come, on a terminal that somebody watches; a log gets no bar."""

from __future__ import annotations

import sys
from collections.abc import Callable
from types import TracebackType
from typing import TYPE_CHECKING

import click

if TYPE_CHECKING:
    from click._termui_impl import ProgressBar


class Bar:
    """A bar on standard error from its first step to the last; what is said meanwhile stands above it."""

    def __init__(self, label: str, say: Callable[[str], None]) -> None:
        self._label, self._say = label, say
        self._bar: ProgressBar[int] | None = None

    def step(self, done: int, of: int) -> None:
        """So many are done, of so many."""
        if not sys.stderr.isatty():
            return
        if self._bar is None:
            self._bar = click.progressbar(length=of, label=self._label, file=sys.stderr)
            self._bar.__enter__()
        self._bar.update(done - self._bar.pos)
        if done == of:
            self._end()

    def say(self, text: str) -> None:
        if self._bar:
            click.echo(err=True)
        self._say(text)

    def __enter__(self) -> Bar:
        return self

    def __exit__(
        self, of: type[BaseException] | None, it: BaseException | None, at: TracebackType | None
    ) -> None:
        self._end()

    def _end(self) -> None:
        if self._bar:
            self._bar.__exit__(None, None, None)
            self._bar = None
