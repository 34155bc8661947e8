"""A site in shares: the same bytes however many make it, and the old site where one of them fails."""

from __future__ import annotations

import gc
import os
import signal
import subprocess
import sys
import weakref
from pathlib import Path
from typing import cast

import pytest

import spanbook
from spanbook.outputs.folder import workshop
from spanbook.outputs.folder.written import Place, Writer
from spanbook.press import worker
from spanbook.press.jobs import Data, Done, Job, Pages, Tables, in_order
from spanbook.press.parts import Part, Printed
from spanbook.press.rows import Gathered
from spanbook.press.work import Work
from spanbook.press.workers import WORTH, can_fork, fitting
from spanbook.site import assets, hubs, views
from spanbook.site.assets import FAMILIES
from spanbook.site.each import Each, EachTable, of_share
from spanbook.site.page import SitePage
from tests.support.command import CONFIG, MOVED, SEEN, project
from tests.support.demo import shown
from tests.support.trees import tree

FORK = pytest.mark.skipif(not can_fork(), reason="this system begins no process that holds what another does")
# A machine that holds a guide, and links of every sort that a guide may have.
GUIDE = """\
# Where to go

[A record](assemblies/cover-plate.md#span-xa), [a list](positions/index.md), [a file](data/tables.xlsx),
[what was](assemblies/lid.md), [all addresses](addresses.txt), [a schema](schema/assembly.json),
[the record itself](assemblies/cover-plate/record.json) and [nothing](assemblies/hat.md).
"""
LONG = {"card", "forms", "found", "planning", "renew", "sheet"}  # families that take a while
ASKS = "def on_page_content(html, page, config, files):\n    return html\n"


@pytest.fixture
def small(tmp_path: Path) -> Path:
    """With a page that has moved, guides, and an address of its own."""
    folder = project(tmp_path / "p", SEEN.replace("assembly: lid", "assembly: cover-plate"), MOVED)
    (folder / "content/assemblies/lid.yml").unlink()
    (folder / "content/index.md").write_text("# Home\n")
    (folder / "content/where.md").write_text(GUIDE)
    settings = (
        f"{CONFIG}site_url: https://x.example/engines/\nrepo_url: https://forge.example/us\nedit_uri: e/\n"
    )
    named = "nav: [index.md, assemblies/cover-plate.md, Parts: parts/index.md]"
    (folder / "mkdocs.yml").write_text(settings.replace("nav: [index.md]", named))
    return folder


def built(folder: Path, site: str, jobs: int | None = None) -> dict[str, bytes | str | None]:
    spanbook.build(folder, folder.parent / site, anew=True, jobs=jobs)
    return tree(folder.parent / site)


@FORK
@pytest.mark.slow
def test_the_site_is_the_same_however_many_make_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    spanbook.start(tmp_path / "us", "Us", None)
    one, two, three = (built(tmp_path / "us", f"site-{jobs}", jobs=jobs) for jobs in (1, 2, 3))
    assert len(one) > 100
    assert one == two == three


@pytest.mark.slow
def test_a_site_whose_pages_somebody_asks_for_is_the_same(
    small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SOURCE_DATE_EPOCH", "1000000000")
    told: list[list[str]] = []
    for more in ("", "hooks: [hook.py]\n"):
        (small / "hook.py").write_text(ASKS)
        (small / "mkdocs.yml").write_text((small / "mkdocs.yml").read_text() + more)
        said: list[str] = []
        spanbook.build(small, small.parent / f"site{len(told)}", say=said.append)
        told.append([line for line in said if not line.startswith(("Building", "Documentation built"))])
    straight, through = (tree(small.parent / f"site{number}") for number in (0, 1))
    assert straight.keys() == through.keys()
    assert {path for path in straight if straight[path] != through[path]} == set()
    assert told[0] == told[1]
    assert any("assemblies/hat.md" in line for line in told[0])
    page = str(straight["where/index.html"])
    assert page.count("../assemblies/cover-plate/") >= 3  # the navigation and two links
    assert page.count("Part numbers") == 1


@pytest.mark.slow
def test_what_a_guide_leads_to_is_looked_at(small: Path) -> None:
    said: list[str] = []
    (small / "content/where.md").write_text("# Where\n\n[It](assemblies/cover-plate.md#span-xb)\n")
    spanbook.build(small, say=said.append)
    (warned,) = (line for line in said if "anchor" in line)
    assert "does not contain an anchor '#span-xb'" in warned


def test_every_page_under_no_other_has_its_title(demo_pages: list[SitePage]) -> None:
    made = {page.address: page.title for page in demo_pages if not page.crumbs}
    assert hubs.titles() == made


@pytest.mark.slow
def test_shares_have_all_pages_in_their_order() -> None:
    site = shown()
    for view in views.VIEWS:
        if isinstance(view, Each):
            whole = [page.address for page in views.pages_of(site, view)]
            things = [one for number in range(3) for one in of_share(view.things(site), (number, 3))]
            parted = [page for one in things for page in views.pages_of_thing(site, view, one)]
            assert [page.address for page in parted] == whole


@pytest.mark.parametrize("many", [3, pytest.param(70, marks=pytest.mark.slow)])
@pytest.mark.parametrize(
    "family",
    [
        pytest.param(name, marks=[pytest.mark.slow] if name in LONG else [])
        for name, one in FAMILIES.items()
        if isinstance(one, EachTable)
    ],
)
def test_shares_have_all_tables_each_once(family: str, many: int) -> None:
    """However many they are: also where there are more of them than things."""
    site = shown()
    whole = list(assets.tables(site, family))
    parted = [file for n in range(many) for file in assets.tables(site, family, share=(n, many))]
    assert sorted(parted) == sorted(whole)


@pytest.mark.slow
def test_every_table_is_in_a_family_and_none_in_two() -> None:
    site = shown()
    every = list(assets.every_table(site, ()))
    assert len(dict(every)) == len(every) > 100


def test_pages_are_in_the_order_of_the_site_whatever_is_made_first() -> None:
    def made(job: Job) -> Done:
        told = [f"{job} {number}" for number in range(2)]
        return Done((Part(("", ""), (), tuple(Printed(one, one, None, None) for one in told)),))

    jobs: list[Job] = [
        Pages(3),
        Data(2, Gathered({})),
        Tables("finder"),
        Pages(1, (0, 2)),
        Pages(1, (1, 2)),
        Pages(0),
    ]
    done = [made(job) for job in jobs]
    wanted = [one for at in (5, 3, 4, 1, 0) for one in done[at].pages]
    assert list(in_order(jobs, done)) == wanted


class Circle:
    """A job that leaves behind something that only a collector can let go of."""

    left: weakref.ref[Circle]

    def do(self, *given: object) -> Done:
        circle = Circle()
        vars(circle)["itself"] = circle
        Circle.left = weakref.ref(circle)
        return Done(())


def test_nothing_is_left_of_a_job_but_what_it_made(tmp_path: Path) -> None:
    """Not even in circles, though while a site is made nobody else collects."""
    gc.freeze()  # what other tests keep is not looked at
    gc.disable()
    try:
        worker.done(Circle(), cast(Work, None), Writer(Place.of(tmp_path)), lambda count: None)
        assert Circle.left() is None
    finally:
        gc.enable()  # what it froze may stay so: nobody else need look at it


def test_a_small_site_is_made_by_one_process() -> None:
    assert fitting(WORTH - 1) == 1
    assert fitting(WORTH) == len(os.sched_getaffinity(0))


@FORK
@pytest.mark.slow
def test_a_share_that_fails_leaves_the_old_site(small: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = built(small, "site")

    def full(*asked: object) -> None:
        raise OSError(28, "No space left on device", "a page")

    monkeypatch.setattr(Pages, "do", full)
    with pytest.raises(spanbook.BuildFailed, match="a page: the disk is full"):
        built(small, "site", jobs=2)
    assert tree(small.parent / "site") == before
    assert not workshop.workshop_of(small.parent / "site").exists()


@FORK
@pytest.mark.slow
def test_a_process_that_dies_leaves_the_old_site_and_is_told(
    small: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    before = built(small, "site")
    said: list[str] = []
    monkeypatch.setattr(Pages, "do", lambda *asked: os.kill(os.getpid(), signal.SIGKILL))
    with pytest.raises(spanbook.BuildFailed):
        spanbook.build(small, small.parent / "site", anew=True, jobs=2, say=said.append)
    assert any("a process that made a share of the site ended" in line for line in said)
    assert tree(small.parent / "site") == before
    assert not workshop.workshop_of(small.parent / "site").exists()


# A build of which each share but the first files takes for ever, and says that it has begun.
SLOW = """
import signal, sys, time
# A shell that works in the background has it ignored.
signal.signal(signal.SIGINT, signal.default_int_handler)
from spanbook.press.jobs import Pages
Pages.do = lambda *asked: (print("begun", flush=True), time.sleep(600))
import spanbook
spanbook.build(sys.argv[1], anew=True, jobs=2)
"""


@FORK
@pytest.mark.slow
@pytest.mark.parametrize("ended", [signal.SIGINT, signal.SIGKILL])
def test_whoever_is_ended_leaves_nobody_behind(small: Path, ended: signal.Signals) -> None:
    before = built(small, "p/site")
    run = subprocess.Popen(
        [sys.executable, "-c", SLOW, str(small)],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
        text=True,
    )
    assert run.stdout is not None
    assert run.stdout.readline() == "begun\n"
    run.send_signal(ended)
    assert run.wait(30) != 0
    # The pipe is at its end when nobody who could write into it is left.
    run.stdout.read()
    assert tree(small / "site") == before
    spanbook.build(small, anew=True)
    assert not workshop.workshop_of(small / "site").exists()
