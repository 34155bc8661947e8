"""Serving the site while it is written: built again at every change, the old pages staying till then."""

from __future__ import annotations

import logging
import os
import shutil
import signal
import tempfile
import threading
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from urllib.parse import urlsplit

from mkdocs.commands import build as mkdocs_build
from mkdocs.plugins import PluginCollection

from spanbook.ground.language import gettext as _
from spanbook.mkdocs import settings
from spanbook.mkdocs.early import Frame
from spanbook.mkdocs.inputs import places_of
from spanbook.mkdocs.plugin import SpanbookPlugin
from spanbook.mkdocs.settings import BuildFailed, Say
from spanbook.outputs.serving import Seen, Shown, SiteServer, changed, hosts, look
from spanbook.outputs.text.failure import about
from spanbook.site.common import Site
from spanbook.wording.building import stays

_CLEARING = 5.0  # seconds in which whoever asks twice has to wait


def serve(project: Path, address: str, say: Say) -> None:
    """Serve the site of a project folder until Ctrl-C, or a signal that ends the process.

    Raises BuildFailed when it cannot begin. From then on whatever fails is told, and shown in the pages.
    """
    project = project.absolute()
    settings.file_of(project)
    with _until_ended(), _listening(address) as server, settings.messages(say), _temporary() as folder:
        say(_("Serving {project} on {address}/ until Ctrl-C").format(project=project, address=server.url()))
        preview = _Preview(project, folder, server, say)
        try:
            seen = preview.build()
            while True:
                changed(preview.watched, seen)
                say(_("Something has changed"))
                seen = preview.build()
        finally:
            preview.end()
    say(_("The site is no longer served."))


class _Preview:
    """The site as it could last be built, and the next one on its way."""

    def __init__(self, project: Path, folder: Path, server: SiteServer, say: Say) -> None:
        self._project = project
        self._folder = folder
        self._server = server
        self._say = say
        self._count = 0
        self._plugins: PluginCollection | None = None
        self._frame: Frame | None = None
        # Until the settings can be read, they and the usual folder are all that can be watched.
        self.watched: tuple[Path, ...] = (project / "mkdocs.yml", project / "content")

    def build(self) -> Seen:
        """Build the site and show it, or show why it cannot be built. Gives what lay there before."""
        watched = self.watched
        seen = look(watched)
        before = self._server.shown
        self._count += 1
        fresh = self._folder / str(self._count)
        with _errors() as told:
            try:
                shown = Shown(fresh, self._build_into(fresh))
            except Exception as failure:
                shown = Shown(before.root, before.mount, self._tell(failure, told))
        self._server.shown = shown
        for site in (fresh, before.root):
            if site is not None and site != shown.root:
                shutil.rmtree(site, ignore_errors=True)
        # Other places are watched now: what they hold is what was just read.
        same = self.watched == watched or look(watched) != seen
        return seen if same else look(self.watched)

    def end(self) -> None:
        if self._plugins is not None:
            self._plugins.on_shutdown()

    def _build_into(self, fresh: Path) -> str:
        """Where on the server the site begins. Raises BuildFailed, and whatever a hook or a theme raises."""
        config = settings.load(self._project)
        self.watched = tuple(places_of(config))
        if self._plugins is None:
            config.plugins.on_startup(command="serve", dirty=False)
            self._plugins = config.plugins
        inside = urlsplit(config.site_url or "").path.strip("/")
        mount = f"/{inside}/" if inside else "/"
        config.site_dir = str(fresh)
        config.site_url = f"{self._server.url()}{mount}"
        plugin = config.plugins.get("spanbook")
        if isinstance(plugin, SpanbookPlugin):
            plugin.begun = self._show_early
        with settings.failures_told(), about(fresh):
            fresh.mkdir(parents=True)
            mkdocs_build.build(config, serve_url=config.site_url)
        if isinstance(plugin, SpanbookPlugin):
            self._frame = plugin.frame
        return mount

    def _show_early(self, site: Site) -> None:
        """Show anew what is looked at; the rest of the site comes later."""
        if self._frame and self._server.shown.root:
            early = dict(self._frame.pages(site, tuple(self._server.looked_at)[::-1]))
            if early:
                before = self._server.shown
                self._server.shown = Shown(before.root, before.mount, early=early)

    def _tell(self, failure: Exception, told: list[str]) -> tuple[str, ...]:
        """What is to be mended. MkDocs has told some of it already, and then only says how much there was."""
        if isinstance(failure, BuildFailed):
            problems = tuple(told) or (str(failure),)
        else:  # a fault of a hook, of the theme or of ours
            self._say("".join(traceback.format_exception(failure)))
            problems = (*told, f"{type(failure).__name__}: {failure}")
        for problem in problems[len(told) :]:
            self._say(problem)
        self._say(stays())
        return problems


@contextmanager
def _listening(address: str) -> Iterator[SiteServer]:
    try:
        host, port = hosts.parted(address)
        with about(address):
            server = SiteServer(host, port)
    except ValueError as wrong:
        raise BuildFailed(str(wrong)) from None
    thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        yield server
    finally:
        server.shutdown()
        thread.join()
        server.server_close()


@contextmanager
def _temporary() -> Iterator[Path]:
    with tempfile.TemporaryDirectory(prefix="spanbook-serve-", ignore_cleanup_errors=True) as folder:
        yield Path(folder)


@contextmanager
def _errors() -> Iterator[list[str]]:
    """The errors that MkDocs and the plugin tell meanwhile."""
    told: list[str] = []

    class Keeper(logging.Handler):
        def emit(self, record: logging.LogRecord) -> None:
            told.append(record.getMessage())

    logger, keeper = logging.getLogger("mkdocs"), Keeper(logging.ERROR)
    logger.addHandler(keeper)
    try:
        yield told
    finally:
        logger.removeHandler(keeper)


@contextmanager
def _until_ended() -> Iterator[None]:
    """End what is inside when the process is asked to end, and leave it the time to clear up."""
    here, last = os.getpid(), -_CLEARING

    def end(number: int, frame: object) -> None:
        if os.getpid() != here:  # a helper that was forked from this process
            os._exit(0)
        nonlocal last
        again, last = time.monotonic() - last < _CLEARING, time.monotonic()
        if not again:
            raise KeyboardInterrupt

    names = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
    signals = [getattr(signal, name) for name in names if hasattr(signal, name)]
    before = [(name, signal.signal(name, end)) for name in signals]
    try:
        yield
    except KeyboardInterrupt:
        pass
    finally:
        for name, handler in before:
            signal.signal(name, handler)
