"""What several tests share: the demonstration, built once, served, and a real browser."""

from __future__ import annotations

import os
import shutil
import tempfile
import threading
from collections.abc import Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

import pytest
from playwright.sync_api import Browser, sync_playwright

from spanbook.mkdocs.build import build

PROJECT = Path(__file__).parents[1]
# Photographs that the tests develop are kept for this run alone.
_CACHE = tempfile.TemporaryDirectory(prefix="spanbook-tests-")
os.environ["XDG_CACHE_HOME"] = _CACHE.name


@pytest.fixture(scope="session")
def demo_site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The demonstration's site, built strictly: a warning of MkDocs or of a rule fails here."""
    site = tmp_path_factory.mktemp("demo") / "site"
    build(PROJECT, site, strict=True, say=lambda text: None)
    return site


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


@pytest.fixture(scope="session")
def served(demo_site: Path) -> Iterator[str]:
    """The address at which the demonstration is served, with a slash at its end."""
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Quiet, directory=str(demo_site)))
    thread = threading.Thread(target=server.serve_forever, daemon=True)
    thread.start()
    yield f"http://127.0.0.1:{server.server_address[1]}/"
    server.shutdown()
    thread.join()


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The system's Chromium; the tests of pages fail without it rather than being passed over."""
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    assert path, "the tests of pages need Chromium; on Debian: apt-get install chromium"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=path, args=["--no-sandbox"])
        yield browser
        browser.close()
