"""Serving the site while it is written: built again at every change, the old pages staying till then."""

from __future__ import annotations

import gc
import logging
import os
import shutil
import signal
import tempfile
import threading
import time
import traceback
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from functools import partial
from pathlib import Path
from urllib.parse import urlsplit

from mkdocs.commands import build as mkdocs_build
from mkdocs.plugins import PluginCollection

from spanbook.ground.language import gettext as _
from spanbook.mkdocs import settings
from spanbook.mkdocs.desk import Abandoned, Desk, Ending
from spanbook.mkdocs.digested import Inputs
from spanbook.mkdocs.early import ToCome
from spanbook.mkdocs.failures import BuildFailed, failures_told
from spanbook.mkdocs.inputs import inputs_of, places_of
from spanbook.mkdocs.plugin import BrokenRecords, SpanbookPlugin
from spanbook.mkdocs.served import Served
from spanbook.mkdocs.settings import Say
from spanbook.outputs.folder import NoPlace, ledger, settled
from spanbook.outputs.serving import Shown, SiteServer, hosts, look
from spanbook.outputs.text.failure import about
from spanbook.rules.checking import collector_resting
from spanbook.wording.building import stays

_CLEARING = 5.0  # seconds in which whoever asks twice has to wait


def serve(project: Path, address: str, say: Say) -> None:
    """Serve the site of a project folder until Ctrl-C, or a signal that ends the process.

    Raises BuildFailed when it cannot begin. From then on whatever fails is told, and shown in the pages.
    """
    project = project.absolute()
    settings.file_of(project)
    with (
        _until_ended() as ending,
        _listening(address) as server,
        settings.messages(say),
        _temporary() as folder,
    ):
        say(_("Serving {project} on {address}/ until Ctrl-C").format(project=project, address=server.url()))
        # Until the settings can be read, they and the usual folder are all that can be watched.
        desk = Desk(server, say, (project / "mkdocs.yml", project / "content"), ending)
        preview = _Preview(project, folder, server, desk, say)
        # All that is made lives long: walking it again and again would hold up whoever waits.
        with collector_resting(), desk.following():
            try:
                while True:
                    saves = preview.build()
                    gc.collect()
                    desk.wait(saves)
                    say(_("Something has changed"))
            finally:
                preview.end()
    say(_("The site is no longer served."))


class _Preview:
    """The site as it could last be built, and the next one on its way."""

    def __init__(self, project: Path, folder: Path, server: SiteServer, desk: Desk, say: Say) -> None:
        self._project = project
        self._folder = folder
        self._server = server
        self._desk = desk
        self._say = say
        self._count = 0
        self._plugins: PluginCollection | None = None
        self._served = Served()

    def build(self) -> int:
        """Build the site and show it, or show why it cannot be built. Gives how much was saved before."""
        saves = self._desk.saves
        before = self._server.shown.root
        self._count += 1
        fresh = self._folder / str(self._count)
        with _errors() as told:
            try:
                self._build_into(fresh, saves)
            except Abandoned:
                pass
            except Exception as failure:
                self._desk.failed(self._tell(failure, told), saves)
        for site in (fresh, before):
            if site and site != self._server.shown.root and site.parent == self._folder:
                shutil.rmtree(site, ignore_errors=True)
        return saves

    def _begin(self, mount: str, inputs: Inputs | None) -> None:
        """Show what was built last, if it is there as it was left, until there is something newer.

        It says that it is older, unless it was made of just these inputs.
        """
        begun = Shown(None, mount)
        with suppress(OSError, NoPlace):
            last = settled(self._project / "site")
            if (made := ledger.left(last)) is not None:
                current = inputs is not None and made.inputs == inputs.all
                begun = Shown(last, mount, newer=None if current else ToCome())
        self._server.show(begun)

    def end(self) -> None:
        self._served.end()
        if self._plugins is not None:
            self._plugins.on_shutdown()

    def _build_into(self, fresh: Path, saves: int) -> None:
        """Raises BuildFailed, Abandoned, and whatever a hook or a theme raises."""
        seen = look((self._project / "mkdocs.yml",))
        config = settings.load(self._project)
        self._desk.watch.attend(places_of(config))
        others = [place for place in places_of(config) if place != Path(config.docs_dir)]
        beside, inputs = look(others), inputs_of(config)
        if self._plugins is None:
            config.plugins.on_startup(command="serve", dirty=False)
            self._plugins = config.plugins
        inside = urlsplit(config.site_url or "").path.strip("/")
        mount = f"/{inside}/" if inside else "/"
        if self._count == 1:
            self._begin(mount, inputs)
        config.site_dir = str(fresh)
        config.site_url = f"{self._server.url()}{mount}"
        plugin = config.plugins.get("spanbook")
        if isinstance(plugin, SpanbookPlugin):
            plugin.check = self._desk.check
            plugin.begun = partial(self._desk.passed, saves=saves)
            shown = Shown(fresh, mount, behind=False, whole=False)
            plugin.framed = partial(self._desk.framed, fresh=shown, saves=saves)
            plugin.step = lambda _done, _of: self._desk.go_on(saves)
            self._served.give(plugin, inputs)
        with failures_told(), about(fresh):
            fresh.mkdir(parents=True)
            mkdocs_build.build(config, serve_url=config.site_url)
        self._desk.built(Shown(fresh, mount), saves)
        if isinstance(plugin, SpanbookPlugin):
            # Settings that changed while they were read, or later, may be in it or not.
            self._served.keep(plugin, fresh, sure=seen <= beside == look(others))

    def _tell(self, failure: Exception, told: list[str]) -> tuple[str, ...]:
        """What is to be mended. MkDocs has told some of it already, and then only says how much there was."""
        if isinstance(failure, BuildFailed):
            aborted = failure.__cause__
            if aborted and isinstance(counted := aborted.__context__, BrokenRecords):
                told.remove(str(counted))
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
def _until_ended() -> Iterator[Ending]:
    """End what is inside when the process is asked to end, and leave it the time to clear up."""
    here, last, ending = os.getpid(), -_CLEARING, Ending()

    def end(number: int, frame: object) -> None:
        if os.getpid() != here:  # a helper that was forked from this process
            os._exit(0)
        nonlocal last
        again, last = time.monotonic() - last < _CLEARING, time.monotonic()
        ending.asked = True
        if not again:
            raise KeyboardInterrupt

    names = ("SIGINT", "SIGTERM", "SIGHUP", "SIGBREAK")
    signals = [getattr(signal, name) for name in names if hasattr(signal, name)]
    before = [(name, signal.signal(name, end)) for name in signals]
    try:
        yield ending
    except KeyboardInterrupt:
        pass
    finally:
        for name, handler in before:
            signal.signal(name, handler)
