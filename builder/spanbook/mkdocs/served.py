"""The site that is served, of which the next one carries on what has not changed.

Each is made in a folder of its own beside the one before, which readers have until the next is whole.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from spanbook.mkdocs.digested import Inputs
from spanbook.mkdocs.plugin import SpanbookPlugin
from spanbook.outputs.folder.state import state_of
from spanbook.press.again import Asked, let_go


@dataclass(frozen=True, slots=True)
class _Left:
    """A site as it was left, and the name under which its parts are kept."""

    folder: Path
    state: str
    parts: str


class Served:
    """What was built last of a site that is served."""

    def __init__(self) -> None:
        self._left: _Left | None = None

    def give(self, plugin: SpanbookPlugin, inputs: Inputs | None) -> None:
        """What a build may carry on, if there is no doubt of it."""
        if inputs is None:
            return
        left = self._left if self._is_as_left() else None
        plugin.before = left.folder if left else None
        plugin.again = Asked(inputs.program, left.parts if left else "")

    def keep(self, plugin: SpanbookPlugin, folder: Path, *, sure: bool) -> None:
        """A site was built, in which nothing is written any more."""
        parts = plugin.keep() if sure else ""
        self.end()
        if parts:
            try:
                self._left = _Left(folder, state_of(folder), parts)
            except OSError:
                let_go(parts)

    def end(self) -> None:
        """Nothing is carried on any more."""
        if self._left:
            let_go(self._left.parts)
        self._left = None

    def _is_as_left(self) -> bool:
        with suppress(OSError):
            return self._left is not None and state_of(self._left.folder) == self._left.state
        return False
