"""Building and serving the site with MkDocs: into a new folder first, so that a failure loses nothing."""

from __future__ import annotations

import logging
import shutil
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

from mkdocs.commands import build as mkdocs_build
from mkdocs.commands import serve as mkdocs_serve
from mkdocs.config import load_config
from mkdocs.exceptions import MkDocsException

from spanbook.answers.changepoint import Rates
from spanbook.mkdocs.plugin import SpanbookPlugin
from spanbook.site.assets import SCHEMAS

# What a guide or a setting can make go wrong; anything else is a fault of ours and is shown whole.
_FAILURES = (MkDocsException, SystemExit, OSError, UnicodeError)


class BuildFailed(Exception):  # noqa: N818 - it says what happened
    """The site was not built; the previous one is whole. The message says why."""


@dataclass(frozen=True, slots=True)
class Built:
    folder: Path
    pages: int
    seconds: float


def build(project: Path, site: Path | None, strict: bool, say: Callable[[str], None]) -> Built:
    """Build the site of a project folder, telling the steps through `say`. Raises BuildFailed."""
    started = time.monotonic()
    target = (site or project / "site").resolve()
    with _parts_of_mkdocs(say), _beside(target) as fresh:
        try:
            config = load_config(str(_config_file(project)), site_dir=str(fresh), strict=strict or None)
            mkdocs_build.build(config)
        except _FAILURES as failure:
            raise BuildFailed(str(failure)) from failure
        pages = sum(1 for _ in fresh.rglob("*.html"))
        _swap(fresh, target)
    return Built(target, pages, time.monotonic() - started)


def serve(project: Path, address: str, say: Callable[[str], None]) -> None:
    """Serve the site and rebuild when a record or a guide changes. Raises BuildFailed at the first build."""
    with _parts_of_mkdocs(say):
        try:
            mkdocs_serve.serve(str(_config_file(project)), dev_addr=address, livereload=True)
        except _FAILURES as failure:
            raise BuildFailed(str(failure)) from failure


def rates_of(project: Path) -> Rates:
    """The community's rates of change, from mkdocs.yml; the defaults where there is none.

    Raises BuildFailed for settings that MkDocs or the plugin refuses.
    """
    file = project / "mkdocs.yml"
    if not file.is_file():
        return Rates()
    try:
        plugin = load_config(str(file)).plugins.get("spanbook")
        return plugin.config.rates.as_rates() if isinstance(plugin, SpanbookPlugin) else Rates()
    except MkDocsException as failure:
        raise BuildFailed(str(failure)) from failure


def schema_address(project: Path, kind: str) -> str | None:
    """Where the site publishes the schema of a kind; None where the project does not say where it is.

    Raises BuildFailed for settings that MkDocs refuses.
    """
    if not (project / "mkdocs.yml").is_file():
        return None
    try:
        site = load_config(str(project / "mkdocs.yml")).site_url
    except MkDocsException as failure:
        raise BuildFailed(str(failure)) from failure
    return f"{site.rstrip('/')}/{SCHEMAS}{kind}.json" if site else None


def _config_file(project: Path) -> Path:
    file = project / "mkdocs.yml"
    if not file.is_file():
        raise BuildFailed(f"{file}: there is no such file; a project has mkdocs.yml beside content/")
    return file


@contextmanager
def _beside(target: Path) -> Iterator[Path]:
    """A new folder on the same disk as the target, gone afterwards whatever happens."""
    target.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{target.name}-", dir=target.parent))
    fresh.chmod(0o755)
    try:
        yield fresh
    finally:
        shutil.rmtree(fresh, ignore_errors=True)


def _swap(fresh: Path, target: Path) -> None:
    """Put the new site in the place of the old one, which is whole until that moment."""
    old = fresh.with_name(f"{fresh.name}-old")
    if target.exists():
        target.rename(old)
    try:
        fresh.rename(target)
    except OSError:
        if old.exists():
            old.rename(target)
        raise
    shutil.rmtree(old, ignore_errors=True)


@contextmanager
def _parts_of_mkdocs(say: Callable[[str], None]) -> Iterator[None]:
    """MkDocs' own messages, and the plugin's, told through `say`."""

    class Teller(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            say(record.getMessage())

    logger, teller = logging.getLogger("mkdocs"), Teller(logging.INFO)
    logger.addHandler(teller)
    logger.setLevel(logging.INFO)
    try:
        yield
    finally:
        logger.removeHandler(teller)
