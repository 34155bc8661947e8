"""How long a reader on a slow telephone line waits for the finder's first result, by size of community.

Run by hand: `.venv/bin/python -m tests.bench.browser [RECORDS …]`. The site of a small community gets the
tables of a large one, since a query loads nothing else; the line is Chromium's emulation of 150 ms and
1.6 Mbit/s, and what is sent is gzipped. The theme's own search is timed on the same pages as plain MkDocs
builds them, for the sizes in PLAIN.
"""

from __future__ import annotations

import gzip
import subprocess
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from playwright.sync_api import Browser, sync_playwright

from spanbook.answers.answers import Answers
from spanbook.answers.search import Asker
from spanbook.rules.checking import open_folder
from spanbook.site.documents import documents
from spanbook.site.finder import tables as finder
from tests.bench import community
from tests.bench.site import CONFIG, plain

QUERIES = ("000471", "0004?1", "assembly 12", "A0 588")
PLAIN = (1000, 10000)
LINE = {
    "offline": False,
    "latency": 150,
    "downloadThroughput": 1_600_000 / 8,
    "uploadThroughput": 750_000 / 8,
}


def main() -> None:
    for records in [int(argument) for argument in sys.argv[1:]] or [1000, 10000, 50000]:
        with tempfile.TemporaryDirectory() as folder:
            for line in measure(Path(folder), records):
                print(line, flush=True)


def measure(folder: Path, records: int) -> Iterator[str]:
    community.keep_apart(folder)
    count = community.write(folder / "large", records)
    site = _small_site(folder / "small")
    register = open_folder(folder / "large").register
    for name, data in finder.files(Asker(Answers(register), documents(register)), {}):
        (site / name).parent.mkdir(parents=True, exist_ok=True)
        (site / name).write_bytes(data)
    yield f"{count} records: seconds from opening the page, and from the last letter"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path="/usr/bin/chromium", args=["--no-sandbox"])
        with _served(site) as address:
            for query in QUERIES:
                waited = _wait(browser, address, query, "form[data-finder] input", "[role=option]")
                yield f"  {query:12} {waited[0]:6.2f} {waited[1]:6.2f}"
        if records in PLAIN:
            yield _plain(folder / "large", browser)


def _plain(folder: Path, browser: Browser) -> str:
    (folder / "content/index.md").write_text("# Bench\n")
    (folder / "mkdocs.yml").write_text("docs_dir: content\n" + CONFIG % "spanbook")
    plain(folder, "markdown")
    site = folder / "markdown/site"
    sent = len(gzip.compress((site / "search/search_index.json").read_bytes()))
    with _served(site) as address:
        waited = _wait(browser, address, QUERIES[0], "input.md-search__input", ".md-search-result__item")
    return f"  the theme's  {waited[0]:6.2f} {waited[1]:6.2f}, {sent / 1000:.0f} kB sent"


def _small_site(folder: Path) -> Path:
    community.write(folder, 10)
    (folder / "content/index.md").write_text("# Bench\n")
    (folder / "mkdocs.yml").write_text("docs_dir: content\n" + CONFIG % "spanbook")
    command = [sys.executable, "-m", "spanbook", "build"]
    subprocess.run(command, cwd=folder, check=True, capture_output=True)
    return folder / "site"


class _Zipped(SimpleHTTPRequestHandler):
    def do_GET(self) -> None:
        path = Path(self.translate_path(self.path))
        path = path / "index.html" if path.is_dir() else path
        if not path.is_file():
            self.send_error(404)
            return
        data = gzip.compress(path.read_bytes())
        self.send_response(200)
        self.send_header("Content-Type", self.guess_type(str(path)))
        self.send_header("Content-Encoding", "gzip")
        self.send_header("Content-Length", str(len(data)))
        self.end_headers()
        self.wfile.write(data)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


@contextmanager
def _served(site: Path) -> Iterator[str]:
    server = ThreadingHTTPServer(("127.0.0.1", 0), partial(_Zipped, directory=str(site)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_address[1]}/"
    server.shutdown()


def _wait(browser: Browser, address: str, query: str, box: str, result: str) -> tuple[float, float]:
    """Seconds from opening the front page, and from the last letter, to the first result; nothing cached."""
    context = browser.new_context(viewport={"width": 1280, "height": 740})
    page = context.new_page()
    context.new_cdp_session(page).send("Network.emulateNetworkConditions", LINE)
    opened = time.monotonic()
    page.goto(address)
    page.locator(box).click()
    page.keyboard.type(query)
    typed = time.monotonic()
    page.locator(result).first.wait_for(timeout=120_000)
    found = time.monotonic()
    context.close()
    return found - opened, found - typed


if __name__ == "__main__":
    main()
