"""What is served after any saves is what serving would begin with; what has not changed is not made again."""

from __future__ import annotations

import pkgutil
import random
import re
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from tempfile import mkdtemp
from threading import Event

import pytest

import spanbook
from spanbook.mkdocs.desk import Abandoned, Desk, Ending
from spanbook.mkdocs.serve import _Preview
from spanbook.outputs.serving import SiteServer, look
from tests.mkdocs.test_again import SEED, counted_pages, edited, parts_kept
from tests.support.trees import tree
from tests.support.tries import tries

pytestmark = pytest.mark.slow
Files = dict[str, bytes | str | None]
SAVES = 6


class Served:
    """A project being served, of which each build is begun by whoever asks for it."""

    def __init__(self, project: Path, folder: Path, server: SiteServer) -> None:
        self._folder, self._server = folder, server
        self.told: list[str] = []
        self.desk = Desk(server, self.told.append, (project / "mkdocs.yml", project / "content"), Ending())
        self.preview = _Preview(project, folder, server, self.desk, self.told.append)

    def built(self) -> Files:
        """The files of the site of what was saved."""
        self.notice()
        while self.preview.build() != self.desk.saves:
            pass
        assert not self._server.shown.problems
        return self.shown()

    def notice(self) -> None:
        """Wait until what was saved is seen."""
        watch, pause = self.desk.watch, Event()
        while watch.seen != look(watch.places):
            pause.wait(0.01)

    def give_up(self, page: int) -> None:
        """Begin a build, and give it up when so many pages are made."""
        steps = count()

        def go_on(_saves: int) -> None:
            if next(steps) == page:
                raise Abandoned

        self.notice()
        with pytest.MonkeyPatch.context() as patched:
            patched.setattr(self.desk, "go_on", go_on)
            self.preview.build()
        assert next(steps) == page + 1, "it came so far, and no farther"

    def shown(self) -> Files:
        root = self._server.shown.root
        assert root
        assert [root] == list(self._folder.iterdir()), "what is not shown is gone"
        return tree(root)


@contextmanager
def served(project: Path, folder: Path, server: SiteServer) -> Iterator[Served]:
    folder.mkdir()
    made = Served(project, folder, server)
    try:
        with made.desk.following():
            yield made
    finally:
        made.preview.end()


@pytest.fixture
def server() -> Iterator[SiteServer]:
    """Nobody asks it for anything."""
    with SiteServer("127.0.0.1", 0) as made:
        yield made


@pytest.fixture
def project(tmp_path: Path) -> Path:
    folder = tmp_path / "p"
    spanbook.start(folder, "Any", None)
    return folder


@pytest.fixture
def one(tmp_path: Path, project: Path, server: SiteServer) -> Iterator[Served]:
    """The project, served and built once."""
    before = parts_kept()
    with served(project, tmp_path / "served", server) as made:
        made.built()
        assert len(parts_kept()) == len(before) + 1
        yield made
    assert parts_kept() == before, "nothing is left"


def fresh(project: Path, server: SiteServer) -> Files:
    """What serving would begin with now, at the same address."""
    shown, folder = server.shown, Path(mkdtemp(dir=project.parent)) / "served"
    with served(project, folder, server) as other:
        made = other.built()
    server.show(shown)
    return made


def retitle(project: Path, title: str) -> Path:
    """Of a source."""
    source = min((project / "content/sources").glob("*.yml"))
    source.write_text(re.sub("(?m)^title: .*", f"title: {title}", source.read_text()))
    return source


def is_teardown(page: str) -> bool:
    return page.startswith("teardowns/") and page.count("/") == 2


def test_after_any_saves_what_is_served_is_a_fresh_site(
    one: Served, project: Path, server: SiteServer
) -> None:
    """Seeded; builds that are given up on the way change nothing of what is shown or comes next."""
    chance = random.Random(SEED)
    for number in range(tries(SAVES)):
        for _ in range(chance.randint(0, 3)):
            shown = one.shown()
            edited(project, chance)
            retitle(project, f"Given up {number}")
            one.give_up(chance.randint(0, 30))
            assert one.shown() == shown
        edited(project, chance)
        assert one.built() == fresh(project, server)


def test_what_is_not_told_of_what_was_saved_is_not_made_again(
    one: Served, project: Path, server: SiteServer
) -> None:
    source = retitle(project, "Called otherwise")
    with counted_pages() as made:
        shown = one.built()
    assert f"sources/{source.stem}/" in made
    assert not any(map(is_teardown, made))
    assert shown == fresh(project, server)


def test_after_records_that_were_broken_it_is_carried_on_all_the_same(
    one: Served, project: Path, server: SiteServer
) -> None:
    source = retitle(project, "[broken")
    before = one.shown()
    one.notice()
    one.preview.build()
    assert (bool(server.shown.problems), one.shown()) == (True, before)
    retitle(project, "Mended")
    with counted_pages() as made:
        shown = one.built()
    assert f"sources/{source.stem}/" in made
    assert not any(map(is_teardown, made))
    assert shown == fresh(project, server)


def test_a_mistake_is_told_once_and_a_page_that_tells_it_is_not_loaded_again(
    one: Served, project: Path, server: SiteServer
) -> None:
    """By the time the build comes to it, whoever has a page open may be reading."""
    saves = one.desk.saves
    retitle(project, "[broken")
    one.notice()
    while one.desk.saves == saves:
        Event().wait(0.01)
    told = server.shown
    assert [problem.partition(": ")[2].split()[1] for problem in told.problems] == ["yaml-broken:"]
    one.preview.build()
    assert server.shown is told
    assert "nothing was built" not in "".join(told.problems)


@pytest.mark.parametrize("spoil", [lambda page: page.unlink(), lambda page: page.write_text("nobody's")])
def test_a_folder_that_is_not_as_it_was_left_gives_nothing(
    spoil: Callable[[Path], object], one: Served, project: Path, server: SiteServer
) -> None:
    root = server.shown.root
    assert root
    spoil(min(root.glob("teardowns/*/index.html")))
    retitle(project, "Called otherwise")
    assert one.built() == fresh(project, server)


@pytest.mark.parametrize("when", ["spanbook.mkdocs.settings.load", "mkdocs.commands.build.build"])
def test_of_settings_that_change_meanwhile_nothing_is_carried_on(
    when: str, one: Served, project: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Even where they are as they were again: while they are read, or when the build ends."""
    settings = project / "mkdocs.yml"
    text, really = settings.read_text(), pkgutil.resolve_name(when)

    def meanwhile(*given: object, **asked: object) -> object:
        settings.write_text(f"{text}# More\n")
        made = really(*given, **asked)
        settings.write_text(text)
        return made

    with monkeypatch.context() as patched:
        patched.setattr(when, meanwhile)
        patched.setattr(one.desk, "go_on", lambda _saves: None)  # the build had ended before it was noticed
        one.preview.build()
    retitle(project, "Called otherwise")
    with counted_pages() as made:
        one.built()
    assert any(map(is_teardown, made))
