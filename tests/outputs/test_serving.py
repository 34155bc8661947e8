"""The pieces of serving: which names are answered, what is put into a page, what counts as a change."""

from __future__ import annotations

import os
import subprocess
import threading
from collections.abc import Iterator
from http.client import HTTPConnection
from pathlib import Path

import pytest

from spanbook.outputs.serving import Shown, SiteServer, Watch, hosts, look, pages
from tests.support.rows import each_row


@each_row(
    ("host", "asked", "answered"),
    [
        ("127.0.0.1", "127.0.0.1:8000", True),
        ("127.0.0.1", "localhost", True),
        ("127.0.0.1", "[::1]:8000", True),
        ("::1", "localhost:8000", True),
        ("localhost", "127.0.0.1", True),
        ("127.0.0.1", "localhost.", False),
        ("127.0.0.1", "127.1", False),
        ("127.0.0.1", "evil.example", False),
        ("127.0.0.1", "user@localhost", False),
        ("127.0.0.1", "localhost/x", False),
        ("127.0.0.1", "localhost:80:80", False),
        ("127.0.0.1", "[::1", False),
        ("0.0.0.0", "192.168.1.5:8000", True),
        ("0.0.0.0", "localhost:8000", True),
        ("::", "[fe80::1]:8000", True),
        ("0.0.0.0", "evil.example:8000", False),
        ("0.0.0.0", "1.2.3.4.evil.example", False),
        ("192.168.1.5", "192.168.1.5:8000", True),
        ("192.168.1.5", "localhost:8000", False),
        ("workshop", "Workshop:8000", True),
        ("workshop", "workshop.evil.example", False),
    ],
)
def test_a_name_is_answered_only_if_it_was_given(host: str, asked: str, answered: bool) -> None:
    assert hosts.answers(host, [asked]) is answered
    assert not hosts.answers(host, [asked, asked])
    assert not hosts.answers(host, [])


def test_an_address_is_a_host_and_a_port() -> None:
    assert hosts.parted("127.0.0.1:8000") == ("127.0.0.1", 8000)
    assert hosts.parted("[::1]:80") == ("::1", 80)
    assert hosts.written("::1") == "[::1]"
    for wrong in ("", "8000", "a:", "a:b", "a:-1", "a:65536", "::1:80", "a:８0"):
        with pytest.raises(ValueError, match="HOST:PORT"):
            hosts.parted(wrong)


PAGE = b"<!doctype html><html><head><title>x</title></head><body class=a>\n<p>x</p></body></html>"


def test_a_page_gets_its_script_and_no_banner_while_all_is_well() -> None:
    made = pages.served(PAGE, "7", ()).decode()
    assert 'data-state="7" defer></script></head>' in made
    assert "alert" not in made
    assert made.endswith("<body class=a>\n<p>x</p></body></html>")


def test_what_is_told_stays_text_and_is_counted() -> None:
    made = pages.served(PAGE, "7", ["<script>alert(1)</script>", *map(str, range(20))]).decode()
    assert "<body class=a><div class" in made
    assert "<li>&lt;script&gt;alert(1)&lt;/script&gt;</li>" in made
    assert made.count("<li>") == 12
    assert "9 more are told" in made


def test_a_page_without_a_head_is_not_lost() -> None:
    assert pages.served(b"<p>x", "7", ["y"]).endswith(b"<p>x")


def test_every_way_a_file_can_change_is_seen(tmp_path: Path) -> None:
    folder, file = tmp_path / "a", tmp_path / "a/b/c.yml"
    file.parent.mkdir(parents=True)
    file.write_text("one")
    seen = [look([folder])]

    def new() -> None:
        seen.append(look([folder]))
        assert seen[-1] not in seen[:-1]

    file.write_text("other")
    new()
    os.utime(file, (1, 1))
    new()
    (folder / "b/d.yml").touch()
    new()
    (folder / "b/d.yml").rename(folder / "b/e.yml")
    new()
    folder.rename(tmp_path / "away")
    new()
    gone = seen[-1]
    (tmp_path / "away").rename(folder)
    assert look([folder]) == seen[-2] != gone
    (folder / ".c.yml.swp").touch()
    (folder / ".git").mkdir()
    assert {path for path, _ in look([folder])} == {path for path, _ in seen[-2]}


@pytest.mark.slow
def test_links_are_seen_and_not_entered_and_no_depth_is_too_deep(tmp_path: Path) -> None:
    folder, linked = tmp_path / "a", tmp_path / "linked"
    folder.mkdir()
    (folder / "loop").symlink_to(".")
    (folder / "out").symlink_to("/")
    linked.symlink_to(folder)
    assert {path for path, _ in look([linked])} == {f"{linked}{name}" for name in ("", "/loop", "/out")}
    at = os.open(folder, os.O_RDONLY)
    for _ in range(1200):
        os.mkdir("d", dir_fd=at)
        below = os.open("d", os.O_RDONLY, dir_fd=at)
        os.close(at)
        at = below
    os.close(at)
    found = look([folder])
    # What is so deep is too deep for Python's own way to remove it.
    subprocess.run(["rm", "-rf", folder], check=True)
    assert len(found) == 1203


@pytest.fixture
def watch() -> Iterator[Watch]:
    made = Watch()
    yield made
    made.end()


@pytest.mark.slow
@pytest.mark.parametrize("told", [True, False], ids=["told", "looking alone"])
def test_waiting_ends_when_something_has_changed_and_come_to_rest(
    told: bool, tmp_path: Path, watch: Watch, monkeypatch: pytest.MonkeyPatch
) -> None:
    if not told:
        monkeypatch.setattr(Watch, "on_any_event", lambda *_: None)
    watch.attend([tmp_path])
    seen = look([tmp_path])

    def write() -> None:
        for name in "abc":
            (tmp_path / name).touch()

    timer = threading.Timer(0.2, write)
    timer.start()
    before, now = watch.changed() or ((), ())
    timer.join()
    assert before == seen
    assert now == watch.seen == look([tmp_path]) != seen


def test_waiting_ends_with_the_watch_and_other_places_are_no_change(tmp_path: Path) -> None:
    one, other = tmp_path / "one", tmp_path / "other"
    one.mkdir()
    other.mkdir()
    watch, found = Watch(), []
    watch.attend([one])
    thread = threading.Thread(target=lambda: found.append(watch.changed()))
    thread.start()
    watch.attend([one, other])
    assert watch.seen == look([one, other])
    watch.end()
    thread.join()
    assert found == [None]


class Early:
    """A page and two files of which one is newer than the site's."""

    unchecked = False

    def __init__(self, server: SiteServer) -> None:
        self._server = server

    def page(self, address: str) -> str | None:
        assert not self._server.nobody_waits.is_set()
        return "<p>early" if address == "a/" else None

    def file(self, address: str) -> bytes | None:
        return b"newer" if address == "new.css" else None

    def beside(self, address: str) -> bytes | None:
        return b"not there yet" if address in ("new.css", "old.css", "none.css") else None


@pytest.mark.parametrize("whole", [True, False])
def test_what_is_not_there_yet_is_made_or_told_to_be_coming(whole: bool, tmp_path: Path) -> None:
    (tmp_path / "b").mkdir()
    for name in ("a.html", "b/index.html", "new.css", "old.css", "404.html"):
        (tmp_path / name).write_text(f"<body>{name}")
    with SiteServer("127.0.0.1", 0) as server:
        shown = Shown(tmp_path, "/", newer=Early(server), behind=whole, whole=whole)
        threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01}, daemon=True).start()
        server.show(shown)

        def get(path: str) -> tuple[int, str]:
            connection = HTTPConnection("127.0.0.1", server.server_port, timeout=10)
            connection.request("GET", path)
            answer = connection.getresponse()
            return answer.status, answer.read().decode()

        try:
            assert get("/a/")[1].endswith("<p>early")
            assert get("/new.css") == (200, "newer")
            assert get("/old.css") == (200, "<body>old.css")
            assert get("/none.css") == (200, "not there yet")
            assert ("as it was before" in get("/b/")[1]) is whole
            status, body = get("/c/")
            assert (status, "being built" in body) == ((404, False) if whole else (503, True))
        finally:
            server.shutdown()


def test_it_is_known_whether_somebody_waits_for_a_page() -> None:
    with SiteServer("127.0.0.1", 0) as server:
        assert server.nobody_waits.is_set()
        with server.waiting():
            with server.waiting():
                assert not server.nobody_waits.is_set()
            assert not server.nobody_waits.is_set()
        assert server.nobody_waits.is_set()


def test_whoever_asks_what_is_new_is_answered_when_it_is_there() -> None:
    with SiteServer("127.0.0.1", 0) as server:
        state = server.shown.state
        assert server.state_after(state, 0.01) == state
        timer = threading.Timer(0.1, lambda: server.show(Shown(state="later")))
        timer.start()
        assert server.state_after(state, 60) == "later"
        timer.join()
