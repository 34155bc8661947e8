"""What several tests share: the demonstration, built once, served, and a real browser; how they are marked.

Nothing here loads a browser or MkDocs before a test asks for it.
"""

from __future__ import annotations

import gc
import os
import shutil
import tempfile
import threading
from collections.abc import Generator, Iterator
from contextlib import contextmanager
from functools import cache, partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from _pytest.runner import runtestprotocol
from hypothesis import settings
from xdist.remote import Producer
from xdist.scheduler import LoadFileScheduling

from spanbook.ground.language import ENGLISH, speak

if TYPE_CHECKING:
    from playwright.sync_api import Browser

    from spanbook.site.page import SitePage

PROJECT = Path(__file__).parents[1]
# Strangers' files on disks and in git, pages beside a whole site, and what plates are drawn by: all slow.
SLOW = {PROJECT / "tests" / folder for folder in ("hostile", "pages", "plates")}
# Fixtures that take seconds: the site of the demonstration, and every page of it.
_WHOLE = {"demo_site", "demo_pages"}
# Photographs that the tests develop are kept for this run alone.
_CACHE = tempfile.TemporaryDirectory(prefix="spanbook-tests-")
os.environ["XDG_CACHE_HOME"] = _CACHE.name

# No deadlines: a loaded machine is no fault. A run by hand looks for new examples, and keeps what failed in
# `.hypothesis/`; CI takes the same ones every time, so that a proposal is never refused for a fault it did
# not bring. The everyday command looks at a twentieth of them, the whole run at all.
settings.register_profile("explore", deadline=None)
settings.register_profile("repeat", deadline=None, derandomize=True)
settings.register_profile("everyday", deadline=None, max_examples=5)
settings.load_profile("repeat" if os.environ.get("CI") else "explore")


@pytest.hookimpl(tryfirst=True)
def pytest_configure(config: pytest.Config) -> None:
    if _everyday(config):
        settings.load_profile("everyday")
        _lay_in_memory()


def _lay_in_memory() -> None:
    """What the everyday tests lay is in memory where the system has a folder for it: 45 MB."""
    memory = Path("/dev/shm")
    if os.access(memory, os.W_OK | os.X_OK) and shutil.disk_usage(memory).free > 1 << 30:
        os.environ.setdefault("PYTEST_DEBUG_TEMPROOT", str(memory))


def pytest_xdist_auto_num_workers(config: pytest.Config) -> int | None:
    """Processes for `-n auto`: as many as cores for the whole run, none beside this one for what is named.

    A process of its own has to load everything and to build the demonstration again.
    """
    return None if config.args_source is pytest.Config.ArgsSource.TESTPATHS else 0


def pytest_xdist_make_scheduler(config: pytest.Config, log: Producer) -> LoadFileScheduling:
    return Together(config, log)


# What takes seconds to make, and how a file asks for it: all files that ask for the same share it.
_MADE_ONCE = {
    "the demonstration, its pages and the figures of its circuits": (
        "support.demo",
        "demo_pages",
        '["flow", ',
    ),
    "the program's code": ("tests.support.code",),
}


class Together(LoadFileScheduling):  # type: ignore[misc]  # xdist has no types
    """A file to a process, and to one of them all files that ask for the same that takes seconds."""

    def _split_scope(self, nodeid: str) -> str:
        return _scope(super()._split_scope(nodeid))


@cache
def _scope(file: str) -> str:
    text = (PROJECT / file).read_text(encoding="utf-8")
    return next((made for made, asked in _MADE_ONCE.items() if any(one in text for one in asked)), file)


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item, nextitem: pytest.Item | None) -> bool | None:
    """Every day another process is sent no more of a test than how it went: what else there is takes as long
    as a small test itself."""
    if not (_everyday(item.config) and hasattr(item.config, "workerinput")) or item.config.option.durations:
        return None
    for report in runtestprotocol(item, log=False, nextitem=nextitem):
        if report.when == "call" or not report.passed:
            item.ihook.pytest_runtest_logreport(report=report)
    item.ihook.pytest_runtest_logfinish(nodeid=item.nodeid, location=item.location)
    return True


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport() -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """What was printed can be sent from process to process, whatever a file was called that it names."""
    report = yield
    report.sections = [
        (name, text.encode(errors="backslashreplace").decode()) for name, text in report.sections
    ]
    return report


def _everyday(config: pytest.Config) -> bool:
    return config.option.markexpr == "fast" and not os.environ.get("CI")


def pytest_ignore_collect(collection_path: Path, config: pytest.Config) -> bool | None:
    """Every day nothing is loaded of what has no fast tests: to pass them over one by one takes seconds."""
    return True if _everyday(config) and _all_slow(collection_path) else None


def _all_slow(path: Path) -> bool:
    if path.suffix != ".py":
        return path in SLOW
    return "\npytestmark = pytest.mark.slow\n" in path.read_text(encoding="utf-8")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Who asks for Chromium is `browser`; what is neither that nor `slow` is `fast`.

    All of some folders is `slow`, and so is who asks for the whole site or for all its pages.
    """
    for item in items:
        asked = getattr(item, "fixturenames", ())
        if "chromium" in asked:
            item.add_marker("browser")
        elif SLOW & set(item.path.parents) or not _WHOLE.isdisjoint(asked):
            item.add_marker("slow")
        elif not item.get_closest_marker("slow"):
            item.add_marker("fast")


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """What is loaded stays: the collector need not look at it, neither meanwhile nor later."""
    gc.disable()
    done = yield
    gc.freeze()
    gc.set_threshold(500_000)
    gc.enable()
    return done


def pytest_sessionfinish(session: pytest.Session) -> None:
    if _everyday(session.config):
        gc.freeze()  # the whole run looks at its end for what was never closed


@pytest.hookimpl(wrapper=True)
def pytest_runtest_teardown() -> Generator[None]:
    gc.enable()  # a command that ran here has put it out, as it does for its own end
    yield
    speak(ENGLISH)  # a project in another language leaves a process speaking it


@pytest.fixture(autouse=True, scope="session")
def _asked_once(request: pytest.FixtureRequest) -> Iterator[None]:
    """Every day a command that asks the demonstration gets it as another test has opened it."""
    if not _everyday(request.config):
        yield
        return
    from spanbook import open_register
    from tests.support.demo import demo

    with pytest.MonkeyPatch.context() as patch:
        for command in ("opening", "holding"):
            patch.setattr(
                f"spanbook.cli.{command}.open_register",
                lambda folder: demo() if folder.resolve() == PROJECT else open_register(folder),
            )
        yield


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration's site, built strictly: a warning of MkDocs or of a rule fails here."""
    from spanbook.mkdocs.build import build

    site = tmp_path_factory.mktemp("demo") / "site"
    build(PROJECT, site, strict=True, say=lambda text: None)
    return site


@pytest.fixture(scope="session")
def demo_pages() -> list[SitePage]:
    """Every page of the demonstration, as data, made once: the figures of its circuits cost seconds."""
    from spanbook.site import views
    from tests.support.demo import shown

    return list(views.all_pages(shown()))


class Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


@contextmanager
def serving(site: Path) -> Iterator[str]:
    """The address at which a site is served meanwhile, with a slash at its end."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(Quiet, directory=str(site)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}/"
    server.shutdown()
    thread.join()


@pytest.fixture(scope="session")
def served(demo_site: Path) -> Iterator[str]:
    """The address at which the demonstration is served, with a slash at its end."""
    with serving(demo_site) as address:
        yield address


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The system's Chromium; the tests of pages fail without it rather than being passed over."""
    from playwright.sync_api import sync_playwright

    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    assert path, "the tests of pages need Chromium; on Debian: apt-get install chromium"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()
