"""What strangers may send: nothing comes of it but a record, a problem, or text that stays text."""

from __future__ import annotations

import os
import re
from html.parser import HTMLParser
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from spanbook.answers.answers import Answers
from spanbook.reading import read_bytes
from spanbook.reading.git_tree import content_at
from spanbook.reading.problems import Problem, errors
from spanbook.reading.records import Record
from spanbook.reading.write import to_yaml
from spanbook.rules.checking import check_folder, check_tree
from spanbook.site import markdown, views
from spanbook.site.common import Site
from spanbook.site.page import Around
from tests.hostile.drawings import DRAWINGS
from tests.hostile.pictures import PICTURES
from tests.hostile.records import GOOD, RECORDS
from tests.hostile.texts import LINES, NOTES
from tests.support import worlds
from tests.support.command import project, run
from tests.support.repository import git

if TYPE_CHECKING:
    from playwright.sync_api import Browser, Dialog


@pytest.mark.parametrize("name", RECORDS)
def test_a_record_is_sound_or_says_what_is_wrong(name: str) -> None:
    data, wanted = RECORDS[name]
    found = read_bytes(data, "content/sources/a.yml", "source", "a")
    if wanted == "ok":
        assert isinstance(found, Record), found
        return
    assert not isinstance(found, Record)
    assert wanted in {problem.name for problem in found}
    for problem in found:
        assert str(problem).isprintable()
        assert problem.place.line >= 1
        assert problem.todo


class Tags(HTMLParser):
    """Every tag and attribute of some HTML."""

    def __init__(self, html: str) -> None:
        super().__init__()
        self.tags: set[str] = set()
        self.attributes: set[str] = set()
        self.addresses: list[str] = []
        self.text = ""
        self.feed(html)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.add(tag)
        self.attributes |= {name for name, _ in attrs}
        self.addresses += [value or "" for name, value in attrs if name in ("href", "src", "action")]

    def handle_data(self, data: str) -> None:
        self.text += data


@pytest.mark.parametrize("name", NOTES)
def test_notes_become_nothing_but_harmless_html(name: str) -> None:
    found = Tags(str(markdown.to_html(NOTES[name], "../../")))
    assert found.tags <= markdown.TAGS
    assert found.attributes <= {"href", "title", "start", "rel"}
    for address in found.addresses:
        assert re.match(r"https?://[^/@]+(/|$)|\.\./\.\./[^\\/]|#|$", address), address


WORLD = "# file: content/sources/s.yml\n{source}# file: content/assemblies/lid.yml\n{lid}"


def _world(line: str) -> str:
    source = to_yaml({"kind": "source", "id": "s", "title": line, "class": "manual", "copy": line})
    lid = to_yaml(
        {
            "kind": "assembly",
            "id": "lid",
            "title": line,
            "position": "body/cover",
            "serials": [
                {
                    "series": "xa",
                    "first": 1,
                    "last": 20,
                    "evidence": [{"source": "s", "at": line, "note": line}],
                    "note": line,
                }
            ],
            "tell": [line],
            "parts": [{"number": "P 1", "name": line, "quantity": 1, "note": line}],
        }
    )
    return WORLD.format(source=source, lid=lid)


@pytest.fixture(scope="module")
def plain(tmp_path_factory: pytest.TempPathFactory) -> Tags:
    folder = tmp_path_factory.mktemp("plain")
    return Tags("".join(_pages(worlds.check(folder, _world("A word")).register)))


@pytest.mark.parametrize("name", LINES)
def test_a_line_stands_as_it_is_on_every_page(name: str, plain: Tags, tmp_path: Path) -> None:
    checked = worlds.check(tmp_path, _world(LINES[name]))
    assert errors(checked.problems) == ()
    found = Tags("".join(_pages(checked.register)))
    assert found.tags == plain.tags
    assert found.attributes == plain.attributes
    assert LINES[name] in found.text


def _pages(register: object) -> list[str]:
    return [page.to_html(Around()) for page in views.all_pages(Site(Answers(register)))]  # type: ignore[arg-type]


def test_in_a_browser_none_of_it_runs(tmp_path: Path, chromium: Browser) -> None:
    folder = project(tmp_path)
    for i, line in enumerate(LINES.values()):
        text = to_yaml({"kind": "source", "id": f"s{i}", "title": line, "class": "manual", "notes": line})
        (folder / f"content/sources/s{i}.yml").write_text(text.replace("](javascript:", "] (javascript:"))
    for i, note in enumerate(NOTES.values()):
        text = to_yaml({"kind": "source", "id": f"n{i}", "title": f"N {i}", "class": "manual", "notes": note})
        (folder / f"content/sources/n{i}.yml").write_text(text)
    refused = {p.place.path for p in errors(check_folder(folder).problems)}
    for path in refused:  # links that the check refuses never reach a page
        (folder / path).unlink()
    assert run("build", folder).exit_code == 0
    page = chromium.new_page()
    ran: list[str] = []

    def dismiss(dialog: Dialog) -> None:
        ran.append(dialog.message)
        dialog.dismiss()

    page.on("dialog", dismiss)
    asked: list[str] = []
    page.on("request", lambda request: asked.append(request.url))
    for file in sorted((folder / "site").rglob("index.html")):
        page.goto(file.as_uri())
    page.goto((folder / "site/index.html").as_uri())
    page.locator("form[data-finder] input").fill("alert")
    page.wait_for_selector("[role=option]")
    page.close()
    assert ran == []
    assert [url for url in asked if not url.startswith(("file:", "data:"))] == []


TREES = {
    "a link to a secret": ("link", "sources/a.yml", "/etc/passwd", "file-link"),
    "a link to a folder": ("link", "sources/deep", "/etc", "file-link"),
    "a link to itself": ("link", "sources/a.yml", "a.yml", "file-link"),
    "a link to nothing": ("link", "sources/a.yml", "nowhere.yml", "file-link"),
    "a link to its own folder": ("link", "sources/loop", "..", "file-link"),
    "a linked page": ("link", "guide.md", "/etc/passwd", "file-link"),
    "a linked picture of a guide": ("link", "plate.png", "/etc/passwd", "file-link"),
    "a pipe": ("pipe", "sources/a.yml", "", "file-link"),
    "a pipe as a guide": ("pipe", "guide.md", "", "file-link"),
    "a pipe as a guide's picture": ("pipe", "a/plate.png", "", "file-link"),
    "a pipe as a photograph": ("pipe", "photographs/a.jpg", "", "photograph-refused"),
    "an unknown folder": ("file", "letters/a.yml", GOOD, "file-place"),
    "at the top": ("file", "a.yml", GOOD, "file-place"),
    "the other ending": ("file", "sources/a.yaml", GOOD, "file-place"),
    "an ending in capitals": ("file", "sources/a.YML", GOOD, "file-place"),
    "a name of Windows": ("file", "sources/con.yml", GOOD.replace("id: a", "id: con"), "file-reserved"),
    "a folder of Windows": ("file", "sources/aux/a.yml", GOOD, "file-reserved"),
    "a name with a line break": ("file", "sources/a\nb.yml", GOOD, "file-name"),
    "a name with an escape": ("file", "sources/a\x1b[31m.yml", GOOD, "file-name"),
    "a name that turns round": ("file", "sources/a\u202egnp.yml", GOOD, "file-name"),
    "a name like an option": ("file", "sources/--help.yml", GOOD, "file-name"),
    "a name with a command": ("file", "sources/$(touch x).yml", GOOD, "file-name"),
    "a name with a colon": ("file", "sources/a:b.yml", GOOD, "file-name"),
    "dots alone": ("file", "sources/...yml", GOOD, "file-name"),
    "no name": ("file", "sources/.yml", GOOD, "file-name"),
    "a record of 70 kB": ("file", "sources/a.yml", GOOD + f"notes: {'a' * 70_000}\n", "file-size"),
    "a record among the photographs": ("file", "photographs/a.yml", GOOD, "file-place"),
    "a page as a photograph": ("file", "photographs/a.html", "<script>", "photograph-refused"),
    "a drawing as a photograph": ("file", "photographs/a.svg", "<svg onload='x'/>", "photograph-refused"),
    "a program as a photograph": ("file", "photographs/a.php", "<?php", "photograph-refused"),
    "a photograph that is none": ("file", "photographs/a.jpg", "GIF89a", "photograph-refused"),
    "a photograph with a bad name": ("file", "photographs/../photographs/A B.jpg", "x", "photograph-refused"),
    "a linked photograph": ("link", "photographs/a.jpg", "/etc/passwd", "photograph-refused"),
    "a linked folder of photographs": ("link", "photographs/deep", "/etc", "photograph-refused"),
    "a page among the guides": ("file", "news.html", "<script>alert(1)</script>", "file-not-taken"),
    "a page in the other spelling": ("file", "a/news.HTM", "<script>alert(1)</script>", "file-not-taken"),
    "a page of the stricter sort": ("file", "news.xhtml", "<script>alert(1)</script>", "file-not-taken"),
    "a script": ("file", "assets/spanbook.js", "alert(1)", "file-not-taken"),
    "a script in place of a table": ("file", "machines/hk.js", "alert(1)", "file-not-taken"),
    "a style": ("file", "extra.css", "body{display:none}", "file-not-taken"),
    "a drawing in a guide": ("file", "plate.svg", "<svg onload='x'/>", "file-not-taken"),
    "a drawing called a picture": ("file", "plate.png", "<svg onload='x'/>", "guide-picture-refused"),
    "a guide's picture that is cut off": ("file", "a/plate.jpg", "\xff\xd8\xff", "guide-picture-refused"),
    "a program of the build": ("file", "hooks.py", "import os", "file-not-taken"),
    "a file without an ending": ("file", "CNAME", "x.example", "file-not-taken"),
    "a guide that takes a page away": ("file", "assemblies/lid.md", "# Lid\n", "file-not-taken"),
    "a guide that takes a list away": ("file", "machines.md", "# Machines\n", "file-not-taken"),
    "a guide that takes the forms away": ("file", "Add/teardown.md", "# Add\n", "file-not-taken"),
    "a guide in another ending": ("file", "news.markdown", "# News\n", "file-not-taken"),
    "a guide that turns round": ("file", "a\u202edm.md", "# News\n", "file-not-taken"),
    "a guide of Windows": ("file", "aux.md", "# News\n", "file-reserved"),
    "a guide of 2 MB": ("file", "news.md", "a" * 2_000_000, "guide-text"),
    "what an editor left": ("file", "sources/book.yml~", GOOD, "file-left-behind"),
    "what a patch left": ("file", "news.html.orig", "<script>", "file-left-behind"),
    "what Windows left": ("file", "photographs/Thumbs.db", "x", "file-left-behind"),
    "capitals alone": ("file", "sources/LETTER.yml", GOOD.replace("id: a", "id: letter"), "file-name"),
}


def _tree(name: str, tmp_path: Path) -> Path:
    sort, path, what, _ = TREES[name]
    folder = worlds.lay(tmp_path)
    file = folder / "content" / path
    file.parent.mkdir(parents=True, exist_ok=True)
    if sort == "link":
        file.symlink_to(what)
    elif sort == "pipe":
        os.mkfifo(file)
    else:
        file.write_text(what, encoding="utf-8")
    return folder


def _told(problems: tuple[Problem, ...]) -> set[str]:
    """The problems' names; each is one harmless line, and nothing of what a link leads to is in any."""
    told = "\n".join(map(str, problems))
    assert "root:" not in told
    assert len(told.splitlines()) == len(problems)
    assert all(line.isprintable() for line in told.splitlines())
    return {problem.name for problem in problems}


@pytest.mark.parametrize("name", TREES)
def test_a_tree_is_never_followed_out_of_its_folder(name: str, tmp_path: Path) -> None:
    assert TREES[name][-1] in _told(check_folder(_tree(name, tmp_path)).problems)


@pytest.mark.parametrize("name", [name for name, (sort, *_) in TREES.items() if sort != "pipe"])
def test_git_gives_the_same_tree_without_laying_it_out(name: str, tmp_path: Path) -> None:
    folder = _tree(name, tmp_path)
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A", "-f")
    git(folder, "commit", "-q", "-m", "A proposal")
    found = check_tree(content_at(folder, "main"), "content").problems
    assert _told(found) == _told(check_folder(folder).problems)


def test_the_corpus_is_as_large_as_it_says() -> None:
    assert len(RECORDS) + len(NOTES) + len(LINES) + len(TREES) + len(PICTURES) + len(DRAWINGS) >= 420
