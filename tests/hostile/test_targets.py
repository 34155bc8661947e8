"""Wherever a site is told to go: nothing that no build made is ever removed or changed."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from spanbook.mkdocs.plugin import sources_of
from spanbook.mkdocs.settings import load
from spanbook.outputs.folder import NoPlace, mark, published
from tests.support.command import CONFIG, project, run
from tests.support.repository import git
from tests.support.trees import tree

SEED = int(os.environ.get("SPANBOOK_FUZZ_SEED", "1934"))


@pytest.fixture
def place(tmp_path: Path) -> Path:
    """A project under git with a theme of its own, and what strangers have beside it."""
    folder = project(tmp_path / "home/p")
    config = CONFIG.replace("font: false", "font: false, custom_dir: theme")
    (folder / "mkdocs.yml").write_text(config)
    (folder / "theme").mkdir()
    (folder / "theme/main.html").write_text('{% extends "base.html" %}\n')
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A", "-f")
    git(folder, "commit", "-q", "-m", "A proposal")
    for name in ("stranger/letters/a.txt", "home/old-site/index.html", "home/file", "home/p/drafts/x.yml"):
        (tmp_path / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / name).write_text("mine")
    (tmp_path / "home/empty").mkdir()
    (tmp_path / "home/link").symlink_to(tmp_path / "stranger")
    (tmp_path / "home/link-to-empty").symlink_to(tmp_path / "home/empty")
    (tmp_path / "home/link-to-nothing").symlink_to("nowhere")
    git(tmp_path, "init", "-q", "--bare", "bare.git")
    (tmp_path / "clone").mkdir()
    git(tmp_path / "clone", "init", "-q")
    _marked(tmp_path / "home/published")
    _marked(tmp_path / "home/with-a-note")
    (tmp_path / "home/with-a-note/CNAME").write_text("mine")
    _marked(tmp_path / "home/with-a-file-inside")
    (tmp_path / "home/with-a-file-inside/a/mine.txt").write_text("mine")
    _marked(tmp_path / "home/with-a-folder-inside")
    (tmp_path / "home/with-a-folder-inside/a/mine").mkdir()
    _marked(tmp_path / "home/with-git")
    (tmp_path / "home/with-git/a/.git").mkdir()
    _marked(tmp_path / "home/with-a-link")
    (tmp_path / "home/with-a-link/a/out").symlink_to(tmp_path / "stranger")
    _marked(tmp_path / "home/forged")
    (tmp_path / "home/forged" / mark.NAME).write_text('{"about": "mine", "holds": ["a"]}')
    return tmp_path


def _marked(folder: Path) -> None:
    (folder / "a").mkdir(parents=True)
    (folder / "a/index.html").write_text("An older site")
    mark.put(folder)


# As a stranger to the command line would type them, in the project folder.
REFUSED = {
    "the project": (".", "would be removed"),
    "the project by a detour": ("content/..", "would be removed"),
    "above the project": ("..", "would be removed"),
    "far above the project": ("../..", "would be removed"),
    "the root": ("/", "would be removed"),
    "the records": ("content", "would be removed"),
    "among the records": ("content/assemblies", "which the site is made from"),
    "a new folder among the records": ("content/new", "which the site is made from"),
    "the theme": ("theme", "would be removed"),
    "a new folder in the theme": ("theme/new", "which the site is made from"),
    "git's folder": (".git", "where git keeps"),
    "in git's folder": (".git/new", "where git keeps"),
    "a bare repository": ("../../bare.git", "where git keeps"),
    "in a bare repository": ("../../bare.git/new", "where git keeps"),
    "a repository": ("../../clone", "git repository"),
    "a folder of the project": ("drafts", "not empty"),
    "a stranger's folder": ("../../stranger", "not empty"),
    "a site without a mark": ("../old-site", "an earlier spanbook"),
    "a file": ("../file", "it is a file"),
    "below a file": ("../file/new", "a file stands where"),
    "the settings": ("mkdocs.yml", "it is a file"),
    "a link": ("../link", "it is a link"),
    "a link to an empty folder": ("../link-to-empty", "it is a link"),
    "a link to nothing": ("../link-to-nothing", "it is a link"),
    "through a link": ("../link/letters", "not empty"),
    "a site with somebody's file": ("../with-a-note", "CNAME did not come from a build"),
    "a site with somebody's file inside": ("../with-a-file-inside", "a/mine.txt did not come from a build"),
    "a site with a folder inside": ("../with-a-folder-inside", "a/mine did not come from a build"),
    "a site with a repository in it": ("../with-git", "a/.git did not come from a build"),
    "a site with a link in it": ("../with-a-link", "a/out did not come from a build"),
    "a mark that is none": ("../forged", "not empty"),
    "a disk": ("/proc", "disk of its own"),
    "a device": ("/dev/null", "it is a file"),
    "a name that is too long": ("../" + "a" * 300, "too long"),
}
ALLOWED = ("site", "build/site", "../new", "../../deep/er/new", "../empty", "../published", "../link/new")


@contextmanager
def _in(folder: Path) -> Iterator[None]:
    before = Path.cwd()
    os.chdir(folder)
    try:
        yield
    finally:
        os.chdir(before)


@pytest.mark.parametrize("name", REFUSED)
def test_building_where_others_have_things_is_refused_with_a_sentence(name: str, place: Path) -> None:
    target, why = REFUSED[name]
    before = tree(place)
    with _in(place / "home/p"):
        result = run("build", "--site", target)
    assert result.exit_code == 1
    assert why in result.output
    assert "the previous site is as it was" in result.output
    assert tree(place) == before


@pytest.mark.parametrize("target", ALLOWED)
def test_building_elsewhere_changes_that_folder_alone(target: str, place: Path) -> None:
    before = tree(place)
    with _in(place / "home/p"):
        assert run("build", "--site", target).exit_code == 0
        site = (place / "home/p" / target).resolve()
    assert "Lid" in (site / "assemblies/lid/index.html").read_text()
    assert mark.is_on(site)
    assert _outside(tree(place), site.relative_to(place)) == _outside(before, site.relative_to(place))


def _outside(found: dict[str, bytes | str | None], site: Path) -> dict[str, bytes | str | None]:
    """What lies neither in a site nor on the way to it."""
    return {
        path: what
        for path, what in found.items()
        if Path(path) != site and site not in Path(path).parents and Path(path) not in site.parents
    }


# --- plain MkDocs with our plugin empties its folder by itself


def _mkdocs(folder: Path, *arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "mkdocs", "build", *arguments]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, timeout=120)


@pytest.mark.slow
@pytest.mark.parametrize("name", ["a stranger's folder", "above the project", "a site with somebody's file"])
def test_plain_mkdocs_empties_nothing_of_others_either(name: str, place: Path) -> None:
    target, why = REFUSED[name]
    before = tree(place)
    done = _mkdocs(place / "home/p", "--site-dir", target)
    assert done.returncode == 1
    assert why in done.stderr or "docs_dir" in done.stderr
    assert tree(place) == before


@pytest.mark.slow
def test_plain_mkdocs_builds_again_into_what_it_built(place: Path) -> None:
    folder = place / "home/p"
    for _ in range(2):
        done = _mkdocs(folder)
        assert done.returncode == 0, done.stderr
    assert mark.is_on(folder / "site")
    (folder / "content/guide.md").write_bytes(b"\xff")  # it fails halfway, and is as much ours as before
    assert _mkdocs(folder).returncode == 1
    (folder / "content/guide.md").unlink()
    assert _mkdocs(folder).returncode == 0
    assert run("build", folder).exit_code == 0


# --- whatever is typed


_STEPS = (
    *("..", ".", "p", "home", "site", "new", "content", "theme", ".git", "assemblies", "drafts", "stranger"),
    *("link", "link-to-empty", "empty", "published", "with-a-note", "clone", "bare.git", "file", "letters"),
    *("old-site", "objects", "a", ".site.spanbook-build", "..."),
)


@pytest.mark.slow
def test_of_hundreds_of_targets_none_changes_anything_else(place: Path) -> None:
    """Seeded. Only an empty, a new or a marked folder may change, and what was on the way to a new one."""
    chance = random.Random(SEED)
    sources = sources_of(load(place / "home/p"))
    built = 0
    before = tree(place)
    for _ in range(250):
        steps = [chance.choice(_STEPS) for _ in range(chance.randrange(1, 5))]
        target = place / "home/p" / "/".join(steps)
        ours = not target.exists() or (target.is_dir() and (mark.is_on(target) or not any(target.iterdir())))
        site = target.resolve()
        try:
            with published(target, sources, lambda text: None) as fresh:
                (fresh / "index.html").write_text("A site")
        except (NoPlace, OSError):
            assert tree(place) == before, target
        else:
            built += 1
            assert ours, target
            assert site.is_relative_to(place), target
            inside = site.relative_to(place)
            after = tree(place)
            assert _outside(after, inside) == _outside(before, inside), target
            before = after
    assert built > 20


# --- a full disk


@pytest.fixture
def small_disk(tmp_path: Path) -> Iterator[Callable[[int], Path]]:
    """Mounts a disk of so many bytes."""
    mounted: list[Path] = []

    def mount(size: int) -> Path:
        folder = tmp_path / f"disk-{size}"
        folder.mkdir()
        command = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(folder)]
        try:
            done = subprocess.run(command, capture_output=True, text=True, check=False)
        except FileNotFoundError:
            pytest.skip("a small disk is mounted with `mount`, which is not here")
        if done.returncode:
            pytest.skip(f"a small disk can only be mounted by root: {done.stderr.strip()}")
        mounted.append(folder)
        return folder

    yield mount
    for folder in mounted:
        subprocess.run(["umount", str(folder)], check=True)


@pytest.mark.slow
def test_on_a_full_disk_the_old_site_stays_whole(tmp_path: Path, small_disk: Callable[[int], Path]) -> None:
    """The disk holds one site, and a second one to a quarter, to two fifths and to more than a half."""
    folder = project(tmp_path / "p")
    settings = folder / "mkdocs.yml"
    large = small_disk(1 << 26)
    assert run("build", folder, "--site", large / "site").exit_code == 0
    room = os.statvfs(large)
    used = (room.f_blocks - room.f_bfree) * room.f_frsize
    for share in (1.25, 1.4, 1.55):
        site = small_disk(int(used * share)) / "site"
        assert run("build", folder, "--site", site).exit_code == 0
        before = tree(site.parent)
        # Every page is another; what is not stays the file that it was, and takes no room.
        settings.write_text(settings.read_text().replace("site_name: ", "site_name: X"))
        result = run("build", folder, "--site", site)
        assert result.exit_code == 1
        assert "the disk is full; make room" in result.output
        assert tree(site.parent) == before
