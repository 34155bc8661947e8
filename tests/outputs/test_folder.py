"""A site takes its place whole or not at all, at whatever step it is killed and whoever runs beside it."""

from __future__ import annotations

import errno
import os
import random
import signal
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from spanbook.outputs.folder import NoPlace, Sources, exchange, mark, publish, published, workshop
from tests.support.trees import tree

KILLS = int(os.environ.get("SPANBOOK_KILLS", "40"))
SEED = int(os.environ.get("SPANBOOK_FUZZ_SEED", "1934"))


def quiet(text: str) -> None:
    """Nobody needs to know."""


def site(text: str) -> dict[str, str]:
    return {f"{name}/index.html": text for name in ("a", "b", "c/d")} | {"index.html": text}


def make(
    place: Path, text: str, patience: float = 30.0, meanwhile: Callable[[], object] = lambda: None
) -> None:
    with published(place, Sources(place.parent, ()), quiet, patience) as fresh:
        for name, content in site(text).items():
            (fresh / name).parent.mkdir(parents=True, exist_ok=True)
            (fresh / name).write_text(content)
        meanwhile()


def whole(place: Path) -> str:
    """What the site in a place says; it fails unless every page is there and says the same."""
    found = {name: what for name, what in tree(place).items() if isinstance(what, bytes)}
    found.pop(mark.NAME)
    (text,) = set(found.values())
    assert found.keys() == site("").keys()
    return text.decode()


@pytest.fixture
def no_exchange(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(publish, "exchange", lambda one, other: False)


@pytest.fixture(params=["exchange", "two-renames"])
def way(request: pytest.FixtureRequest) -> str:
    if request.param == "two-renames":
        request.getfixturevalue("no_exchange")
    return str(request.param)


@pytest.mark.usefixtures("way")
def test_a_new_site_takes_the_place_of_the_old_and_nothing_else_is_left(tmp_path: Path) -> None:
    place = tmp_path / "site"
    for text in ("one", "two", "three"):
        make(place, text)
        assert whole(place) == text
        assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def test_this_system_exchanges_in_one_step(tmp_path: Path) -> None:
    if sys.platform != "linux":
        pytest.skip("only Linux is known to exchange two folders in one step")
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    (tmp_path / "a/x").touch()
    assert exchange.exchange(tmp_path / "a", tmp_path / "b")
    assert (tmp_path / "b/x").exists()
    assert not (tmp_path / "a/x").exists()
    with pytest.raises(FileNotFoundError):
        exchange.exchange(tmp_path / "a", tmp_path / "nowhere")


def test_the_same_site_has_the_same_mark(tmp_path: Path) -> None:
    make(tmp_path / "a", "x")
    make(tmp_path / "b", "x")
    assert tree(tmp_path / "a") == tree(tmp_path / "b")


def test_the_rights_of_the_old_site_are_kept(tmp_path: Path) -> None:
    place = tmp_path / "site"
    place.mkdir(mode=0o750)
    place.chmod(0o750)
    make(place, "one")
    assert place.stat().st_mode & 0o777 == 0o750


@pytest.mark.usefixtures("way")
@pytest.mark.parametrize("failure", [OSError("full"), KeyboardInterrupt()])
def test_a_failure_leaves_the_old_site_and_nothing_else(tmp_path: Path, failure: BaseException) -> None:
    place = tmp_path / "deep/er/site"

    def fail() -> None:
        raise failure

    with pytest.raises(type(failure)):
        make(place, "one", meanwhile=fail)
    assert tree(tmp_path) == {}
    make(place, "one")
    before = tree(tmp_path)
    with pytest.raises(type(failure)):
        make(place, "two", meanwhile=fail)
    assert tree(tmp_path) == before


@pytest.mark.usefixtures("no_exchange")
def test_the_old_site_goes_back_when_the_new_cannot_take_its_place(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "site"
    make(place, "one")
    real = Path.rename

    def refuse(self: Path, target: Path) -> Path:
        if target == place and self.name == workshop.WHOLE:
            raise OSError(errno.EBUSY, "busy", str(self))
        return real(self, target)

    monkeypatch.setattr(Path, "rename", refuse)
    before = tree(tmp_path)
    with pytest.raises(OSError, match="busy"):
        make(place, "two")
    assert tree(tmp_path) == before


@pytest.mark.usefixtures("way")
def test_what_somebody_puts_into_the_site_meanwhile_is_not_lost(tmp_path: Path) -> None:
    place = tmp_path / "site"
    make(place, "one")
    with pytest.raises(NoPlace, match=r"notes\.txt"):
        make(place, "two", meanwhile=lambda: (place / "notes.txt").write_text("mine"))
    assert (place / "notes.txt").read_text() == "mine"
    (place / "notes.txt").unlink()
    assert whole(place) == "one"
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


@pytest.mark.usefixtures("way")
def test_a_link_that_is_put_in_the_place_meanwhile_is_not_followed(tmp_path: Path) -> None:
    place, other = tmp_path / "site", tmp_path / "other"
    make(other, "other")
    with pytest.raises(NoPlace, match="link"):
        make(place, "one", meanwhile=lambda: place.symlink_to(other))
    assert place.is_symlink()
    assert whole(other) == "other"


def test_a_workshop_of_somebody_else_is_not_swept(tmp_path: Path) -> None:
    place = tmp_path / "site"
    shop = workshop.workshop_of(place)
    for name in ("notes.txt", workshop.PART, "lock"):
        shop.mkdir()
        (shop / name).write_text("mine")
        before = tree(tmp_path)
        with pytest.raises(NoPlace, match=r"move it away"):
            make(place, "one")
        assert tree(tmp_path) == before
        (shop / name).unlink()
        shop.rmdir()
    (tmp_path / "elsewhere").mkdir()
    shop.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(NoPlace, match=r"move it away"):
        make(place, "one")
    assert tree(tmp_path / "elsewhere") == {}


# --- killed at any moment


def child(work: Callable[[], object]) -> int:
    """Another process that does some work, by its id; it ends with 0 when the work is done."""
    if (process := os.fork()) == 0:
        ended = 1
        try:
            work()
            ended = 0
        finally:
            os._exit(ended)
    return process


def make_many(place: Path, first: int, count: int) -> None:
    for number in range(first, first + count):
        make(place, str(number))


def make_until(step: int, place: Path, text: str) -> None:
    die_before(step)
    make(place, text)


def ended(process: int) -> int:
    return os.waitstatus_to_exitcode(os.waitpid(process, 0)[1])


def die_before(step: int) -> None:
    """End this process just before the so manieth change that it makes to the disk."""
    count = 0

    def die(event: str, arguments: tuple[object, ...]) -> None:
        nonlocal count
        changes = event in ("os.rename", "os.mkdir", "os.rmdir", "os.remove", "shutil.rmtree", "os.chmod")
        flags = arguments[2] if event == "open" else 0
        if changes or (isinstance(flags, int) and flags & (os.O_WRONLY | os.O_RDWR)):
            count += 1
            if count > step:
                os._exit(9)

    sys.addaudithook(die)


@pytest.mark.slow
def test_killed_before_any_change_of_the_disk_it_leaves_a_whole_site(tmp_path: Path, way: str) -> None:
    """Every step of a publication is tried; without an exchange the next run puts the old site back."""
    place, taken_down = tmp_path / "site", 0
    for step in range(1000):
        make(place, "one")
        end = ended(child(partial(make_until, step, place, "two")))
        if not place.exists():
            taken_down += 1
            with pytest.raises(KeyboardInterrupt):  # a run that fails mends it too
                make(place, "three", meanwhile=_interrupt)
        assert whole(place) in ("one", "two")
        if end == 0:
            break
        assert end == 9
    assert step > 20, "there are many steps"
    assert whole(place) == "two"
    assert taken_down == (0 if way == "exchange" else 1)
    make(place, "three")
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


def _interrupt() -> None:
    raise KeyboardInterrupt


@pytest.mark.slow
def test_killed_at_any_moment_it_leaves_a_whole_site(tmp_path: Path, way: str) -> None:
    """Seeded; SPANBOOK_KILLS says how often."""
    chance, place = random.Random(SEED), tmp_path / "site"
    make(place, "0")
    for number in range(KILLS // 2):
        process = child(partial(make_many, place, number * 1000, 1000))
        time.sleep(chance.uniform(0.01, 0.1))
        os.kill(process, signal.SIGKILL)
        assert ended(process) == -signal.SIGKILL
        if way != "exchange" and not place.exists():
            with pytest.raises(KeyboardInterrupt):
                make(place, "x", meanwhile=_interrupt)
        assert whole(place).isdecimal()
        assert {entry.name for entry in tmp_path.iterdir()} <= {"site", workshop.workshop_of(place).name}
    make(place, "end")
    assert whole(place) == "end"
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]


# --- two at once


@pytest.mark.slow
def test_a_second_build_waits_and_then_says_so(tmp_path: Path) -> None:
    place = tmp_path / "site"
    make(place, "one")
    told: list[str] = []
    (inside, go), (begun, end) = os.pipe(), os.pipe()
    first = child(lambda: make(place, "two", meanwhile=lambda: (os.write(end, b"in"), os.read(inside, 1))))
    os.read(begun, 2)
    with (
        pytest.raises(NoPlace, match="still running"),
        published(place, Sources(tmp_path, ()), told.append, 0.2),
    ):
        pytest.fail("two builds were let in at once")
    assert told == [f"Another build into {place} is running; waiting for it to end"]
    assert whole(place) == "one"
    os.write(go, b"!")
    make(place, "three")  # waits for it
    assert ended(first) == 0
    assert whole(place) == "three"


@pytest.mark.slow
def test_many_builds_at_once_all_come_to_their_end(tmp_path: Path) -> None:
    place = tmp_path / "site"
    runs = [child(partial(make_many, place, n * 10, 10)) for n in range(4)]
    texts, running = set(), set(runs)
    while running:
        if place.exists():
            texts.add((place / "index.html").read_text())
        running -= {run for run in running if os.waitid(os.P_PID, run, os.WEXITED | os.WNOHANG | os.WNOWAIT)}
    assert [ended(run) for run in runs] == [0, 0, 0, 0]
    assert whole(place)
    assert len(texts) > 3, "one site after the other was there to be read"
    assert [entry.name for entry in tmp_path.iterdir()] == ["site"]
