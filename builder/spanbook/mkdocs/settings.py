"""A project's settings, as MkDocs reads them, and what the rest of the house wants to know of them."""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

from mkdocs.config import load_config
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import MkDocsException

from spanbook.answers.assumed import Assumed
from spanbook.ground.language import gettext as _
from spanbook.mkdocs.plugin import SpanbookPlugin
from spanbook.outputs.text.failure import sentence
from spanbook.site.assets import SCHEMAS

Say = Callable[[str], None]


class BuildFailed(Exception):  # noqa: N818 - it says what happened
    """The site was not built; the previous one is whole. The message says why."""


@contextmanager
def failures_told() -> Iterator[None]:
    """What a guide, a setting or the system can make go wrong, as BuildFailed.

    Anything else is a fault of ours and is shown whole.
    """
    try:
        yield
    except OSError as failure:
        raise BuildFailed(sentence(failure)) from failure
    except (MkDocsException, SystemExit, UnicodeError) as failure:
        raise BuildFailed(str(failure)) from failure


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


def assumed_of(project: Path) -> Assumed:
    """What the community assumes, from mkdocs.yml; the defaults where there is none.

    Raises BuildFailed for settings that MkDocs or the plugin refuses.
    """
    if not (project / "mkdocs.yml").is_file():
        return Assumed()
    plugin = load(project).plugins.get("spanbook")
    with failures_told():
        return plugin.config.assumed() if isinstance(plugin, SpanbookPlugin) else Assumed()


def schema_address(project: Path, kind: str) -> str | None:
    """Where the site publishes the schema of a kind. Raises as `site_address`, and is None where that is."""
    site = site_address(project)
    return site and f"{site}{SCHEMAS}{kind}.json"


def site_address(project: Path) -> str | None:
    """Where the site is, with a slash at its end; None where the project does not say.

    Raises BuildFailed for settings that MkDocs refuses.
    """
    if not (project / "mkdocs.yml").is_file():
        return None
    site = load(project).site_url
    return f"{site.rstrip('/')}/" if site else None


def site_name(project: Path) -> str:
    """What the site is called; empty where the project does not say. Raises as `site_address`."""
    return load(project).site_name if (project / "mkdocs.yml").is_file() else ""


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
