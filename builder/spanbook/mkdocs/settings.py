"""A project's settings, as MkDocs reads them, and what the rest of the house wants to know of them."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig

from spanbook.ground.language import gettext as _
from spanbook.mkdocs.failures import BuildFailed, failures_told

Say = Callable[[str], None]


def file_of(project: Path) -> Path:
    """The settings of a project folder. Raises BuildFailed where there are none to read."""
    file = project / "mkdocs.yml"
    if not file.is_file():
        raise BuildFailed(
            _("{}: there is no such file; a project has mkdocs.yml beside content/").format(file)
        )
    with failures_told():
        data = file.read_bytes()
    try:
        data.decode()
    except UnicodeDecodeError as wrong:
        line = data.count(b"\n", 0, wrong.start) + 1
        told = _("{file} is not UTF-8 (byte {byte} in line {line}); save it as UTF-8")
        byte = f"{data[wrong.start]:#04x}"
        raise BuildFailed(told.format(file=file, byte=byte, line=line)) from None
    return file


def load(project: Path, strict: bool = False) -> MkDocsConfig:
    """Raises BuildFailed for settings that MkDocs refuses."""
    file = file_of(project)
    with failures_told():
        # Where the site goes is never the settings' choice: a build says so itself.
        return load_config(str(file), site_dir=str(project.resolve() / "site"), strict=strict or None)


class Teller(logging.Handler):
    """Tells what MkDocs and the plugin have to say, and remembers what of it was a warning."""

    def __init__(self, say: Say) -> None:
        super().__init__(logging.INFO)
        self._say = say
        self.warnings: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        text = record.getMessage()
        if record.levelno >= logging.WARNING:
            self.warnings.append(text)
        self._say(text)


@contextmanager
def messages(say: Say) -> Iterator[Teller]:
    """MkDocs' own messages, and the plugin's, told through `say`."""
    logger, teller = logging.getLogger("mkdocs"), Teller(say)
    logger.addHandler(teller)
    logger.setLevel(logging.INFO)
    try:
        yield teller
    finally:
        logger.removeHandler(teller)
