"""Serving while a site is written: what changes shows, what is broken is told, and the old pages stay."""

from __future__ import annotations

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from threading import Event
from typing import TYPE_CHECKING

import pytest

from spanbook.outputs.serving import look
from tests.support.command import CONFIG, project, run

if TYPE_CHECKING:
    from playwright.sync_api import Browser

PATIENCE = 300  # tenths of a second: what a slow machine may need for a build
pytestmark = pytest.mark.slow


def until(condition: Callable[[], bool]) -> bool:
    """Whether a condition comes true before patience ends."""
    pause = Event()
    return any(condition() or pause.wait(0.1) for _ in range(PATIENCE))


@dataclass(frozen=True)
class Serving:
    """A project being served: where it is, where it can be looked at, what was told, what is kept."""

    folder: Path
    address: str
    told: Path
    kept: Path
    process: subprocess.Popen[bytes]

    def get(self, path: str, method: str = "GET", **fields: str) -> tuple[int, dict[str, str], str]:
        """Status, header fields and body of an answer; 0 where nobody answers."""
        connection = http.client.HTTPConnection(self.address, timeout=10)
        try:
            connection.request(method, path, headers=fields)
            answer = connection.getresponse()
            return answer.status, dict(answer.getheaders()), answer.read().decode()
        except OSError:
            return 0, {}, ""
        finally:
            connection.close()

    def page(self, path: str) -> str:
        return self.get(path)[2]

    def is_built(self) -> bool:
        """Whether all pages come to be there: what is not is then no longer to come."""
        return until(lambda: self.get("/nowhere/")[0] == 404)

    def shows(self, path: str, *texts: str) -> bool:
        return until(lambda: all(text in self.page(path) for text in texts))


def free_address() -> str:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        return f"127.0.0.1:{free.getsockname()[1]}"


def begin(folder: Path, tmp_path: Path, address: str = "") -> Serving:
    address = address or free_address()
    told, kept = tmp_path / "told.txt", tmp_path / "kept"
    kept.mkdir()
    command = [sys.executable, "-m", "spanbook", "serve", str(folder), "--address", address]
    environment = {**os.environ, "PYTHONUNBUFFERED": "1", "TMPDIR": str(kept)}
    with told.open("wb") as out:
        process = subprocess.Popen(
            command, stdout=out, stderr=subprocess.STDOUT, env=environment, start_new_session=True
        )
    return Serving(folder, address, told, kept, process)


@pytest.fixture
def serving(tmp_path: Path) -> Iterator[Serving]:
    """The small project, served and built once."""
    served = begin(project(tmp_path / "p"), tmp_path)
    try:
        assert served.is_built(), served.told.read_text()
        yield served
    finally:
        served.process.terminate()
        served.process.wait()


BANNER = '<div class="sb-serve" role="alert">'
NOTE = '<p class="sb-serve-note" role="status">'
FOLLOWS = f"{NOTE}This page is as it was before the last change. It follows when the site is built."
UNCHECKED = f"{NOTE}This page is of what was just saved. The rules are still being run."
PAGE = "/assemblies/lid/"


def test_a_change_shows_and_a_broken_record_leaves_the_old_page(serving: Serving) -> None:
    lid = serving.folder / "content/assemblies/lid.yml"
    sound = lid.read_text()
    assert BANNER not in serving.page(PAGE)

    lid.write_text(sound.replace("title: Lid", "title: Better lid"))
    assert serving.shows(PAGE, "Better lid"), serving.told.read_text()

    lid.write_text(sound.replace("title: Lid", "title: [Lid"))
    assert serving.shows(PAGE, BANNER, "content/assemblies/lid.yml:3:8: error", "Better lid")
    assert until(lambda: "content/assemblies/lid.yml:3:8: error" in serving.told.read_text())

    lid.write_text(sound.replace("title: Lid", "title: Best lid"))
    assert serving.shows(PAGE, "Best lid"), serving.told.read_text()
    assert BANNER not in serving.page(PAGE)


HOOK = """\
import time
from pathlib import Path

def on_nav(nav, **_):
    while Path({}).exists():
        time.sleep(0.05)
"""


def test_what_is_looked_at_shows_before_the_rest_is_built(tmp_path: Path) -> None:
    """The build is held up after its records are read and before a page is made."""
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    (folder / "hook.py").write_text(HOOK.format(repr(str(held))))
    serving = begin(folder, tmp_path)
    try:
        assert serving.is_built(), serving.told.read_text()
        whole = serving.page(PAGE)
        held.touch()
        lid = folder / "content/assemblies/lid.yml"
        lid.write_text(lid.read_text().replace("title: Lid", "title: Lis"))
        assert serving.shows(PAGE, '<h1 id="record">Lis</h1>'), serving.told.read_text()
        old = serving.page("/assemblies/")
        assert "Lis" not in old
        assert FOLLOWS in old
        early = serving.page(PAGE)
        assert "Lis" in serving.page("/positions/body/cover/"), "made when somebody looks"
        held.unlink()
        assert serving.shows("/assemblies/", "Lis"), serving.told.read_text()
        assert read(serving.page(PAGE)) == read(early)
        assert read(early) == read(whole).replace("Lid", "Lis")
        assert NOTE not in serving.page(PAGE) + serving.page("/assemblies/")
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()


def read(page: str) -> str:
    """A page without what says which state is served and how new it is, and by what it is shared."""
    page = re.sub(r"<p class=\"sb-serve-note\".*?</p>", "", page)
    return re.sub(r'data-state="\d+"|<meta (property="og:|name="twitter:)[^>]*>\n*', "", page)


@pytest.mark.parametrize("touched", [False, True], ids=["as it was left", "touched"])
def test_it_begins_with_what_was_built_last_if_that_is_there_as_it_was_left(
    touched: bool, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The first build is held up. Nothing is built into the project's own site."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    assert run("build", folder).exit_code == 0
    if touched:
        (folder / "site/assemblies/lid/index.html").write_text("<title>Lid</title><body>Somebody else's")
    before = look([folder / "site"])
    held.touch()
    (folder / "hook.py").write_text(HOOK.format(repr(str(held))))
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    serving = begin(folder, tmp_path)
    try:
        if touched:
            assert serving.shows(PAGE, "The site is being built."), serving.told.read_text()
        else:
            assert serving.shows(PAGE, '<h1 id="record">Lid</h1>', FOLLOWS), serving.told.read_text()
        held.unlink()
        assert until(lambda: "Lid</h1>" in serving.page(PAGE) and NOTE not in serving.page(PAGE))
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()
    assert look([folder / "site"]) == before


HELD_PAGES = """\
import time
from pathlib import Path
from spanbook.mkdocs import straight

really = straight.make

def make(*asked):
    while Path({0}).exists():
        time.sleep(0.05)
    return really(*asked)

straight.make = make
"""


def test_whoever_waits_for_a_page_at_the_start_need_not_wait_for_all(tmp_path: Path) -> None:
    """The first build is held up before it makes a page: what is there is as when all is."""
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    (folder / "hook.py").write_text(HELD_PAGES.format(repr(str(held))))
    held.touch()
    serving = begin(folder, tmp_path)
    paths = (PAGE, "/", "/positions/body/cover/")
    try:
        assert serving.shows(PAGE, '<h1 id="record">Lid</h1>'), serving.told.read_text()
        early = [serving.page(path) for path in paths]
        assert all("<title>" in page and NOTE not in page for page in early)
        style = serving.page("/assets/spanbook.css")
        assert "{" in style
        status, _, body = serving.get("/assemblies/")
        assert (status, "The site is being built." in body) == (503, True)
        held.unlink()
        assert serving.is_built(), serving.told.read_text()
        assert [read(serving.page(path)) for path in paths] == list(map(read, early))
        assert serving.page("/assets/spanbook.css") == style
        assert serving.get("/nowhere/")[0] == 404
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()


def test_a_guide_shows_before_the_rest_is_built(tmp_path: Path) -> None:
    """The second build is held up before it makes a page, and the guide is edited once more."""
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    (folder / "hook.py").write_text(HELD_BUILD.format(repr(str(held))))
    serving = begin(folder, tmp_path)
    guide = folder / "content/index.md"
    sound = guide.read_text()
    try:
        assert serving.is_built(), serving.told.read_text()
        held.touch()
        guide.write_text(sound.replace("# Home", "# Our home"))
        assert serving.shows("/", "Our home</h1>", UNCHECKED), serving.told.read_text()
        early = serving.page("/")
        guide.write_bytes(b"# Home\n\xff\n")
        assert until(lambda: "index.md" in serving.told.read_text())
        guide.write_text(sound.replace("# Home", "# Our home"))
        held.unlink()
        assert until(lambda: "Our home</h1>" in serving.page("/") and NOTE not in serving.page("/"))
        assert read(serving.page("/")) == read(early)
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()


def test_what_was_built_of_just_this_is_not_called_older(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    folder = project(tmp_path / "p")
    assert run("build", folder).exit_code == 0
    serving = begin(folder, tmp_path)
    try:
        assert until(lambda: serving.get(PAGE)[0] == 200)
        assert NOTE not in serving.page(PAGE)
    finally:
        serving.process.terminate()
        serving.process.wait()


# Where no record has changed the rules are not run again.
HELD_BUILD = """\
import time
from pathlib import Path

def on_pre_build(config):
    while Path({0}).exists():
        time.sleep(0.05)
"""
HELD_RULES = """\
import time
from pathlib import Path
from spanbook.rules import checking

really = checking.rules.run

def run(register, **asked):
    while Path({0}).exists():
        Path({0} + ".there").touch()
        time.sleep(0.05)
    return really(register, **asked)

checking.rules.run = run
"""


def test_what_breaks_a_rule_is_shown_as_not_looked_at_yet_and_then_not_at_all(tmp_path: Path) -> None:
    """The rules are held up, until the page is seen that was made before them."""
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    (folder / "hook.py").write_text(HELD_RULES.format(repr(str(held))))
    serving = begin(folder, tmp_path)
    try:
        assert serving.is_built(), serving.told.read_text()
        held.touch()
        lid = folder / "content/assemblies/lid.yml"
        sound = lid.read_text()
        lid.write_text(sound.replace("title: Lid", "title: Lis").replace("last: 20", "last: 500"))
        assert serving.shows(PAGE, '<h1 id="record">Lis</h1>', UNCHECKED), serving.told.read_text()
        held.unlink()
        assert serving.shows(PAGE, '<h1 id="record">Lid</h1>', BANNER, "lid.yml:6"), serving.told.read_text()
        lid.write_text(sound.replace("title: Lid", "title: Lit"))
        assert serving.shows(PAGE, '<h1 id="record">Lit</h1>'), serving.told.read_text()
        assert serving.shows("/assemblies/", "Lit"), serving.told.read_text()
        assert BANNER not in serving.page(PAGE)
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()


HELD_PAGE = """\
import time
from pathlib import Path

def on_post_page(output, page, config):
    Path({0} + ".made").open("a").write(page.file.src_uri + "\\n")
    while Path({0}).exists():
        time.sleep(0.05)
"""


def test_a_second_save_gives_up_the_build_of_the_first_at_the_next_page(tmp_path: Path) -> None:
    folder, held = project(tmp_path / "p"), tmp_path / "held"
    (folder / "mkdocs.yml").write_text(CONFIG + "hooks: [hook.py]\n")
    (folder / "hook.py").write_text(HELD_PAGE.format(repr(str(held))))
    serving, made = begin(folder, tmp_path), tmp_path / "held.made"
    try:
        assert serving.is_built(), serving.told.read_text()
        pages = len(made.read_text().splitlines())
        made.unlink()
        held.touch()
        lid = folder / "content/assemblies/lid.yml"
        sound = lid.read_text()
        lid.write_text(sound.replace("title: Lid", "title: Lis"))
        assert until(made.exists), serving.told.read_text()
        lid.write_text(sound.replace("title: Lid", "title: Lit"))
        assert serving.shows(PAGE, '<h1 id="record">Lit</h1>'), serving.told.read_text()
        held.unlink()
        assert serving.shows("/assemblies/", "Lit"), serving.told.read_text()
        # One page of the build that was given up, and all of the next.
        assert len(made.read_text().splitlines()) <= pages + 2
        assert until(lambda: len(list(next(serving.kept.iterdir()).iterdir())) == 1), (
            "half built ones are gone"
        )
    finally:
        held.unlink(missing_ok=True)
        serving.process.terminate()
        serving.process.wait()


def _broken_guide(folder: Path) -> None:
    (folder / "content/index.md").write_bytes(b"# Home\n\xff\n")


def _broken_settings(folder: Path) -> None:
    (folder / "mkdocs.yml").write_text(CONFIG + "extra: [a\n")


def _unknown_setting(folder: Path) -> None:
    (folder / "mkdocs.yml").write_text(CONFIG.replace("nav: [index.md]", "nav: 7"))


def _broken_theme(folder: Path) -> None:
    (folder / "theme/partials").mkdir(parents=True)
    (folder / "theme/partials/header.html").write_text("{% block %}")
    (folder / "mkdocs.yml").write_text(CONFIG.replace("font: false", "font: false, custom_dir: theme"))


@pytest.mark.parametrize(
    ("spoil", "where"),
    [
        (_broken_guide, "index.md"),
        (_broken_settings, "mkdocs.yml&quot;, line 7"),
        (_unknown_setting, "nav"),
        (_broken_theme, "TemplateSyntaxError"),
    ],
    ids=["guide", "settings", "unknown-setting", "theme"],
)
def test_what_else_is_broken_is_shown_on_the_old_page(
    spoil: Callable[[Path], None], where: str, serving: Serving
) -> None:
    spoil(serving.folder)
    assert serving.shows(PAGE, BANNER, where, '<h1 id="record">Lid</h1>'), serving.told.read_text()
    project(serving.folder)
    assert until(lambda: BANNER not in serving.page(PAGE)), serving.told.read_text()


@pytest.mark.parametrize("spoil", [_broken_guide, _broken_settings], ids=["guide", "settings"])
def test_a_project_that_is_broken_from_the_start_is_shown_too(
    spoil: Callable[[Path], None], tmp_path: Path
) -> None:
    folder = project(tmp_path / "p")
    spoil(folder)
    serving = begin(folder, tmp_path)
    try:
        assert serving.shows("/any/address", "There is no page to show yet.", "<li>"), (
            serving.told.read_text()
        )
        assert serving.get("/any/address")[0] == 503
        project(folder)
        assert serving.shows(PAGE, '<h1 id="record">Lid</h1>'), serving.told.read_text()
    finally:
        serving.process.terminate()
        serving.process.wait()


@pytest.mark.parametrize("what", ["content", "content/assemblies", "."])
def test_a_folder_that_goes_and_comes_back_is_noticed(what: str, serving: Serving) -> None:
    moved, away = (serving.folder / what).resolve(), serving.folder.parent / "away"
    moved.rename(away)
    assert until(lambda: BANNER in serving.page(PAGE) or serving.get(PAGE)[0] == 404)
    away.rename(moved)
    assert serving.shows(PAGE, '<h1 id="record">Lid</h1>'), serving.told.read_text()
    assert until(lambda: BANNER not in serving.page(PAGE))
    lid = moved.joinpath(*Path("content/assemblies/lid.yml").parts[len(Path(what).parts) :])
    lid.write_text(lid.read_text().replace("title: Lid", "title: Better lid"))
    assert serving.shows(PAGE, "Better lid"), "it is watched as before"


def test_only_the_name_it_was_given_is_answered(serving: Serving) -> None:
    port = serving.address.partition(":")[2]
    for name in ("127.0.0.1", "localhost", "[::1]", "LOCALHOST"):
        assert serving.get("/", Host=f"{name}:{port}")[0] == 200, name
    refused = ["evil.example", "127.0.0.1.evil.example", "localhost.evil.example", "10.0.0.1", "", "0.0.0.0"]
    for name in refused:
        for path in ("/", PAGE, "/addresses.txt", "/.spanbook-serve/state.js"):
            status, _, body = serving.get(path, Host=f"{name}:{port}")
            assert 400 <= status < 500, (name, path)
            assert "Lid" not in body
    assert 400 <= _raw(serving, b"GET / HTTP/1.0\r\n\r\n") < 500
    twice = b"GET / HTTP/1.1\r\nHost: localhost\r\nHost: evil.example\r\n\r\n"
    assert 400 <= _raw(serving, twice) < 500
    elsewhere = b"GET http://evil.example/ HTTP/1.1\r\nHost: localhost\r\n\r\n"
    assert 400 <= _raw(serving, elsewhere) < 500
    assert _raw(serving, b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n") == 200


def _raw(serving: Serving, request: bytes) -> int:
    host, _, port = serving.address.partition(":")
    with socket.create_connection((host, int(port)), timeout=10) as connection:
        connection.sendall(request)
        return int(connection.makefile("rb").readline().split()[1])


def test_it_gives_the_site_and_nothing_else(serving: Serving) -> None:
    assert serving.get("/assemblies/lid")[:2][0] == 302
    assert serving.get("/assemblies/lid")[1]["Location"] == "/assemblies/lid/"
    assert serving.get("/assemblies/lid/?q=1")[0] == 200
    status, fields, body = serving.get("/addresses.txt")
    assert (status, fields["Content-Type"]) == (200, "text/plain; charset=utf-8")
    assert body == (serving.kept / next(serving.kept.iterdir()) / "1/addresses.txt").read_text()
    assert fields["Cross-Origin-Resource-Policy"] == "same-origin"
    assert serving.get("/", method="HEAD")[2] == ""
    status, _, body = serving.get("/nowhere/")
    assert status == 404
    assert "Nothing stands at this address" in body
    for path in (
        "/../told.txt",
        "/%2e%2e/%2e%2e/told.txt",
        "/..%2f..%2ftold.txt",
        "//etc/passwd",
        "/%00",
        "/assets",
    ):
        assert serving.get(path)[0] in (302, 404), path
    assert not serving.get("//evil.example/..")[1].get("Location", "/").startswith("//")
    assert serving.get("/assets/")[0] == 404, "no list of a folder"


def test_a_site_below_the_top_is_served_there(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    (folder / "mkdocs.yml").write_text(f"{CONFIG}site_url: https://wexmoor.example/engines/\n")
    serving = begin(folder, tmp_path)
    try:
        assert serving.shows("/engines/assemblies/lid/", "Lid</h1>"), serving.told.read_text()
        assert serving.get("/")[1]["Location"] == "/engines/"
        assert serving.get("/assemblies/lid/")[0] == 404
        assert f'<link rel="canonical" href="http://{serving.address}/engines/' in serving.page("/engines/")
    finally:
        serving.process.terminate()
        serving.process.wait()


def test_a_browser_loads_the_page_anew_under_its_policy(serving: Serving, chromium: Browser) -> None:
    page = chromium.new_page()
    complaints: list[str] = []
    page.on("console", lambda message: complaints.append(message.text) if message.type == "error" else None)
    page.goto(f"http://{serving.address}{PAGE}")
    assert page.locator("meta[http-equiv=Content-Security-Policy]").count() == 1
    assert page.title().startswith("Lid")
    lid = serving.folder / "content/assemblies/lid.yml"
    sound = lid.read_text()

    lid.write_text(sound.replace("title: Lid", "title: Better lid"))
    page.get_by_role("heading", name="Better lid").wait_for(timeout=30_000)
    lid.write_text(sound.replace("title: Lid", "title: [<b>Lid"))
    page.get_by_role("alert").wait_for(timeout=30_000)
    assert "lid.yml:3" in page.get_by_role("alert").inner_text()
    page.get_by_role("heading", name="Better lid").wait_for(timeout=30_000)
    assert page.locator(".sb-serve b").count() == 0
    background = page.locator(".sb-serve").evaluate("e => getComputedStyle(e).backgroundColor")
    assert background == "rgb(255, 244, 243)", "its style sheet is let in"
    lid.write_text(sound)
    page.get_by_role("heading", name="Lid", exact=True).wait_for(timeout=30_000)
    assert page.get_by_role("alert").count() == 0
    page.close()
    assert complaints == []


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
@pytest.mark.parametrize("moment", ["at rest", "building"])
def test_it_ends_without_leaving_anything(name: str, moment: str, serving: Serving) -> None:
    if moment == "building":
        lid = serving.folder / "content/assemblies/lid.yml"
        lid.write_text(lid.read_text().replace("title: Lid", "title: Better lid"))
        assert until(lambda: serving.told.read_text().count("Cleaning site directory") == 2)
    group = os.getpgid(serving.process.pid)
    serving.process.send_signal(getattr(signal, name))
    serving.process.send_signal(getattr(signal, name))
    assert serving.process.wait(timeout=30) == 0
    told = serving.told.read_text()
    assert told.endswith("The site is no longer served.\n")
    assert "Traceback" not in told
    assert "Exception" not in told
    assert list(serving.kept.iterdir()) == []
    assert serving.get("/")[0] == 0
    assert until(lambda: not _is_there(group))


# A program that is asked to end while Python lets something go, where whatever is raised is lost.
DEAF = """
import os, signal, sys
from pathlib import Path
from types import SimpleNamespace
from spanbook.mkdocs import serve

class LetGo:
    def __del__(self):
        os.kill(os.getpid(), signal.SIGTERM)
        for _ in range(1000):
            pass  # here Python looks for signals

serve.gc = SimpleNamespace(collect=lambda: LetGo() and None)  # between a build and the wait for a change
serve.serve(Path(sys.argv[1]), sys.argv[2], print)
"""


def test_it_ends_where_what_a_signal_raises_is_lost(tmp_path: Path) -> None:
    """In a destructor Python only tells of an exception, and goes on."""
    folder = project(tmp_path / "p")
    run = [sys.executable, "-c", DEAF, str(folder), free_address()]
    done = subprocess.run(run, capture_output=True, text=True, check=True, timeout=60)
    assert done.stdout.endswith("The site is no longer served.\n")
    assert "KeyboardInterrupt" in done.stderr  # it was lost


def _is_there(group: int) -> bool:
    """Whether a process of a group is; the system takes a moment to end those of one that was killed."""
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True


def test_what_keeps_it_from_beginning_is_a_sentence(tmp_path: Path) -> None:
    folder = project(tmp_path / "p")
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        taken = f"127.0.0.1:{other.getsockname()[1]}"
        for arguments, why in (
            ((folder, "--address", taken), "something else is listening there"),
            ((folder, "--address", "8000"), "HOST:PORT"),
            ((folder, "--address", "127.0.0.1:99999"), "HOST:PORT"),
            ((folder, "--address", "::1:8000"), "HOST:PORT"),
            ((folder, "--address", "no-such-host.invalid:8000"), "no-such-host.invalid:8000"),
            ((tmp_path / "nowhere",), "there is no such file"),
            ((folder / "mkdocs.yml",), "there is no such file"),
        ):
            result = run("serve", *arguments)
            assert result.exit_code == 1, result.output
            assert why in result.output
            assert isinstance(result.exception, SystemExit)
