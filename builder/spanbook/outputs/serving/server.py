"""A folder served over HTTP on this machine, while it is made anew again and again."""

from __future__ import annotations

import mimetypes
import socket
import socketserver
import time
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass, field, replace
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path, PurePosixPath
from threading import BoundedSemaphore, Condition, Event
from typing import Any, Protocol
from urllib.parse import parse_qs, quote, unquote

from spanbook.ground.language import gettext as _
from spanbook.outputs.serving import hosts, pages

_OWN_FILES = {name: Path(__file__).parent / name for name in ("serve.js", "serve.css")}
_LOOKED_AT = 3  # pages that may be open beside one another
_HELD = 20.0  # seconds that a page waits to be told of something new, before it asks again
_MOST_HELD = 30  # pages that do so
# Not every system knows these, and a browser takes a script only by its type.
_TYPES = {
    ".css": "text/css; charset=utf-8",
    ".html": "text/html; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".txt": "text/plain; charset=utf-8",
    ".webp": "image/webp",
    ".woff2": "font/woff2",
    ".xml": "application/xml",
}


class Newer(Protocol):
    """What is not built yet. It is `unchecked` until the rules have been run over it."""

    @property
    def unchecked(self) -> bool: ...
    def page(self, address: str) -> str | None:
        """The page at an address of the site; None for one that is made only when all are."""

    def file(self, address: str) -> bytes | None:
        """A file that is another one than that of the site; None for all others."""

    def beside(self, address: str) -> bytes | None:
        """A file that the site may not have yet; None for one that is made only when all are."""


@dataclass(frozen=True, slots=True)
class Shown:
    """What is served: the folder of a site under `mount`, or none yet, and why it cannot follow.

    `newer` makes pages that are not there, and those of what was saved since: what the folder has is `behind`
    it. A folder is `whole` once the site in it is built.
    """

    root: Path | None = None
    mount: str = "/"
    problems: tuple[str, ...] = ()
    newer: Newer | None = None
    behind: bool = True
    whole: bool = True
    state: str = field(default_factory=lambda: str(time.time_ns()))

    def but(self, **changed: Any) -> Shown:
        """The same with something else, which whoever has a page open is told."""
        return replace(self, **{"state": str(time.time_ns()), **changed})


class SiteServer(ThreadingHTTPServer):
    """Answers only to the name it was given. What is shown is replaced whenever there is something else."""

    daemon_threads = True

    def __init__(self, host: str, port: int) -> None:
        self.address_family = socket.AF_INET6 if ":" in host else socket.AF_INET
        self.host = host
        self._shown = Shown()
        self._changes = Condition()
        self.places = BoundedSemaphore(_MOST_HELD)
        self._waiting = 0
        self.nobody_waits = Event()
        self.nobody_waits.set()
        # The addresses that were looked at last, in the site, the latest at the end.
        self.looked_at: deque[str] = deque(maxlen=_LOOKED_AT)
        super().__init__((host, port), _Handler)

    def server_bind(self) -> None:
        # Without asking the network for this machine's name, as HTTPServer does.
        socketserver.TCPServer.server_bind(self)
        self.server_name, self.server_port = self.host, self.server_address[1]

    @contextmanager
    def waiting(self) -> Iterator[None]:
        """While somebody waits for a page that has to be made."""
        with self._changes:
            self._waiting += 1
            self.nobody_waits.clear()
        try:
            yield
        finally:
            with self._changes:
                self._waiting -= 1
                if not self._waiting:
                    self.nobody_waits.set()

    @property
    def shown(self) -> Shown:
        return self._shown

    def show(self, shown: Shown) -> None:
        """Whatever page is open is told."""
        with self._changes:
            self._shown = shown
            self._changes.notify_all()

    def state_after(self, state: str, held: float) -> str:
        """What is shown when that is something else than a state, or after so many seconds."""
        with self._changes:
            self._changes.wait_for(lambda: self._shown.state != state, held)
            return self._shown.state

    def url(self) -> str:
        return f"http://{hosts.written(self.host)}:{self.server_port}"


class _Handler(BaseHTTPRequestHandler):
    server: SiteServer
    timeout = 60
    server_version = "spanbook"
    sys_version = ""

    def do_GET(self) -> None:
        if not hosts.answers(self.server.host, self.headers.get_all("Host", [])):
            told = _("This server answers to {} and to no other name.")
            said = f"{told.format(hosts.written(self.server.host))}\n"
            return self._send(HTTPStatus.MISDIRECTED_REQUEST, said.encode(), ".txt")
        if not self.path.startswith("/"):
            return self._send(HTTPStatus.BAD_REQUEST, b"An address begins with a slash.\n", ".txt")
        path = unquote(self.path.partition("?")[0].partition("#")[0], errors="replace")
        if path.startswith(pages.OWN):
            return self._send_own(path.removeprefix(pages.OWN))
        return self._send_page(path)

    def do_HEAD(self) -> None:
        self.do_GET()

    def _send_own(self, name: str) -> None:
        if name == "state":
            return self._send_state("".join(parse_qs(self.path.partition("?")[2]).get("after", ())))
        if name == "state.js":
            return self._send(
                HTTPStatus.OK, f'spanbookServes("{self.server.shown.state}");\n'.encode(), ".js"
            )
        if file := _OWN_FILES.get(name):
            return self._send(HTTPStatus.OK, file.read_bytes(), file.suffix)
        return self._send(HTTPStatus.NOT_FOUND, b"There is no such file.\n", ".txt")

    def _send_state(self, after: str) -> None:
        free = self.server.places.acquire(blocking=False)
        try:
            state = self.server.state_after(after, _HELD if free else 1)
        finally:
            if free:
                self.server.places.release()
        self._send(HTTPStatus.OK, state.encode(), ".txt")

    def _send_page(self, path: str) -> None:
        shown = self.server.shown
        address, inside = path.removeprefix(shown.mount), path.startswith(shown.mount)
        if path.endswith("/") and inside:
            self._note(address)
        if shown.root is None:
            return self._send_instead(shown)
        if path == "/" and shown.mount != "/":
            return self._send_on(shown.mount)
        newer = shown.newer if inside else None
        if newer and (data := newer.file(address)) is not None:
            return self._send(HTTPStatus.OK, data, PurePosixPath(address).suffix)
        if newer and path.endswith("/"):
            with self.server.waiting():
                made = newer.page(address)
            if made is not None:
                note = pages.unchecked() if newer.unchecked else ""
                page = pages.served(made.encode(), shown.state, shown.problems, note)
                return self._send(HTTPStatus.OK, page, ".html")
        file = _file(shown, path)
        if file is not None and file.is_dir():
            if not path.endswith("/"):
                return self._send_on(f"{path}/")
            file /= "index.html"
        if file is not None and file.is_file():
            return self._send_file(HTTPStatus.OK, file, shown)
        if newer and (data := newer.beside(address)) is not None:
            return self._send(HTTPStatus.OK, data, PurePosixPath(address).suffix)
        if shown is not self.server.shown:  # the site was replaced at this very moment
            return self._send_page(path)
        if inside and not shown.whole:
            return self._send_instead(shown)
        return self._send_file(HTTPStatus.NOT_FOUND, shown.root / "404.html", shown)

    def _send_instead(self, shown: Shown) -> None:
        instead = pages.instead(shown.state, shown.problems)
        self._send(HTTPStatus.SERVICE_UNAVAILABLE, instead, ".html")

    def _note(self, address: str) -> None:
        looked_at = self.server.looked_at
        with suppress(ValueError):
            looked_at.remove(address)
        looked_at.append(address)

    def _send_file(self, status: HTTPStatus, file: Path, shown: Shown) -> None:
        try:
            data = file.read_bytes()
        except OSError:
            return self._send(HTTPStatus.NOT_FOUND, b"There is no such page.\n", ".txt")
        if file.suffix == ".html":
            note = pages.follows() if shown.newer and shown.behind else ""
            data = pages.served(data, shown.state, shown.problems, note)
        return self._send(status, data, file.suffix)

    def _send_on(self, path: str) -> None:
        self.send_response(HTTPStatus.FOUND)
        self.send_header("Location", quote(f"/{path.lstrip('/')}"))
        self.send_header("Content-Length", "0")
        self.end_headers()

    def _send(self, status: HTTPStatus, data: bytes, suffix: str) -> None:
        kind = _TYPES.get(suffix) or mimetypes.types_map.get(suffix, "application/octet-stream")
        self.send_response(status)
        self.send_header("Content-Type", kind)
        self.send_header("Content-Length", str(len(data)))
        self.send_header("Cache-Control", "no-store")
        # A page from elsewhere must not read a site that is not published by loading its scripts.
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("X-Content-Type-Options", "nosniff")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(data)

    def log_message(self, format: str, *args: object) -> None:
        """Say nothing for each request."""


def _file(shown: Shown, path: str) -> Path | None:
    """The file or folder of the site at an address; None where there is none, or it would lie outside."""
    assert shown.root is not None, "there is a site"
    if not path.startswith(shown.mount) or "\0" in path:
        return None
    root = shown.root.resolve()
    file = (root / path.removeprefix(shown.mount).lstrip("/")).resolve()
    return file if file.is_relative_to(root) else None
