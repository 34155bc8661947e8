"""Releases: what one changed for readers, why and by whom; and what the site makes of them."""

from __future__ import annotations

import json
import shutil
import xml.etree.ElementTree as Tree
from datetime import date
from pathlib import Path
from time import struct_time
from typing import Any

import pytest
import yaml
from jsonschema_rs import Draft202012Validator

import spanbook
from spanbook import BrokenRelease, NotComparable, NotReleased
from spanbook.reading import schemas
from spanbook.reading.releases import read_releases
from tests.support import worlds
from tests.support.command import CONFIG, LID, SEEN, project, run
from tests.support.repository import git

SOURCE = """\
# file: content/sources/slip.yml
kind: source
id: slip
title: Works slip of 1931
class: service-letter
"""
LATER = LID.replace("last: 20", "last: 24, evidence: [{source: slip}]")


@pytest.fixture(scope="module")
def first_released(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A community under git after its first release, 1."""
    folder = project(tmp_path_factory.mktemp("released") / "p")
    settings = CONFIG.replace("[spanbook]", "[{spanbook: {licence: CC0-1.0}}]")
    (folder / "mkdocs.yml").write_text(f"{settings}site_url: https://x.example/engines/\n")
    git(folder, "init", "-q")
    spanbook.release(folder, "1", day=date(2026, 1, 5))
    commit(folder, "1")
    return folder


@pytest.fixture
def released(first_released: Path, tmp_path: Path) -> Path:
    """One of its own for each test."""
    return shutil.copytree(first_released, tmp_path / "p")


def commit(folder: Path, tag: str) -> None:
    git(folder, "add", "-A")
    git(folder, "commit", "-q", "-m", f"Release {tag}")
    git(folder, "tag", tag)


def test_the_first_release_changes_nothing(released: Path) -> None:
    (first,) = read_releases(released)
    assert (first.name, first.since, first.changes) == ("1", None, ())
    assert first.day == date(2026, 1, 5)


def test_a_release_tells_what_is_answered_otherwise_why_and_by_whom(released: Path) -> None:
    worlds.lay(released, LATER, SOURCE, SEEN)
    made = spanbook.release(released, "2", day=date(2026, 2, 6))
    assert made.since == "1"
    assert read_releases(released)[0] == made
    answers = [one for one in made.changes if "XA 21 to XA 24" in one.words]
    assert [(one.address, one.why, one.by) for one in answers] == [
        ("positions/body/cover/", ("Works slip of 1931",), ())
    ]
    (seen,) = (one for one in made.changes if one.by)
    assert seen.by == ("merrin",)
    assert "XA 30" in seen.words


def test_a_statement_is_called_as_readers_know_it(released: Path) -> None:
    worlds.lay(released, LID.replace("last: 20", "last: 20, evidence: [{source: slip}]"), SOURCE)
    made = spanbook.release(released, "2")
    assert [(one.words, one.address) for one in made.changes] == [
        (
            "The Lid, XA …: now in print; before, without evidence",
            "assemblies/lid/#span-xa",
        )
    ]


AGAINST = LID.replace(
    "last: 20", "last: 20, evidence: [{source: slip, at: p. 1, against: true, note: XB only}]"
)
PARTS = "parts:\n- {number: WX-1, name: Ring, quantity: 1}\n"
ACT = """\
# file: content/supersessions/wx-1-to-wx-2.yml
kind: supersession
id: wx-1-to-wx-2
old: [{number: WX-1}]
new: [{number: WX-2, name: Ring}]
interchange: both
evidence: [{source: slip}]
"""


def test_what_is_spoken_against_says_what_is_recorded_first(released: Path) -> None:
    worlds.lay(released, AGAINST, SOURCE)
    told = [one.words for one in spanbook.release(released, "2").changes]
    assert told == ["The Lid, by nobody: now spoken against. Works slip of 1931, p. 1: XB only"]


def test_what_is_ordered_otherwise_says_what_to_order_now(released: Path) -> None:
    worlds.lay(released, LID + PARTS)
    spanbook.release(released, "2")
    commit(released, "2")
    worlds.lay(released, ACT, SOURCE)
    told = [one.words for one in spanbook.release(released, "3").changes]
    assert told[0] == "What to order for WX-1 (of Lid): WX-2 Ring; nothing was told before"
    assert told[1] == "What to order for WX-2: WX-2 Ring; nothing was told before"


def test_nothing_new_is_no_release(released: Path) -> None:
    with pytest.raises(NotReleased, match="otherwise than in release 1"):
        spanbook.release(released, "2")
    assert [file.name for file in (released / "content/releases").iterdir()] == ["1.json"]


@pytest.mark.parametrize("name", ["1", "Now", "a/b", "../x", "-x", "x" * 61, ""])
def test_a_name_is_free_and_plain(released: Path, name: str) -> None:
    worlds.lay(released, LATER, SOURCE)
    with pytest.raises(NotReleased, match=r"choose another name|use small letters"):
        spanbook.release(released, name)


def test_without_the_tag_of_the_release_before_it_has_to_be_told(released: Path) -> None:
    git(released, "tag", "-d", "1")
    worlds.lay(released, LATER, SOURCE)
    with pytest.raises(
        NotReleased, match=r"\(1: .*tag its commit 1, or say with --since what to compare with"
    ):
        spanbook.release(released, "2")
    with pytest.raises(NotComparable, match="nothing: "):
        spanbook.release(released, "2", since="nothing")
    assert spanbook.release(released, "2", since="HEAD").changes


@pytest.mark.slow
def test_the_site_tells_its_releases_and_is_called_by_the_one_it_shows(released: Path) -> None:
    worlds.lay(released, LATER, SOURCE, SEEN)
    told = run("release", "2", "--folder", released, "--date", "2026-02-06").output
    assert "Release 2, 6 February 2026" in told
    assert "git tag 2" in told
    assert run("build", released).exit_code == 0
    page = (released / "site/changes/index.html").read_text()
    assert page.index("Release 2, 6 February 2026") < page.index("Release 1, 5 January 2026")
    assert 'href="../positions/body/cover/"' in page
    assert "Why: Works slip of 1931." in page
    assert '"release 2 of 6 February 2026"' in (released / "site/assets/finder/spanbook.js").read_text()
    state = json.loads((released / "site/release.json").read_text())
    law = (schemas.folder() / "answer-state.json").read_text(encoding="utf-8")
    Draft202012Validator(json.loads(law)).validate(state)
    assert (state["release"], state["released"], state["licence"]) == ("2", True, "CC0-1.0")
    assert state["called"] == "release 2 of 6 February 2026"
    assert set(state["files"]) >= {"data/tables.xlsx", "data/datapackage.json"}
    package = json.loads((released / "site/data/datapackage.json").read_text())
    assert package["version"] == "release 2 of 6 February 2026"


def parsed(data: bytes) -> Any:
    import feedparser  # when a feed was made: every run only looks for the tests that make one

    return feedparser.parse(data)


@pytest.mark.slow
def test_the_feed_reads_as_one(released: Path) -> None:
    """By feedparser (BSD-2-Clause), and by what RFC 4287, section 4.1, asks of a feed and of its entries."""
    worlds.lay(released, LATER, SOURCE, SEEN)
    spanbook.release(released, "2", day=date(2026, 2, 6))
    assert run("build", released).exit_code == 0
    data = (released / "site/changes.atom").read_bytes()
    found = parsed(data)
    assert not found.bozo
    assert found.version == "atom10"
    assert found.feed.id == "https://x.example/engines/changes.atom"
    assert [one.title for one in found.entries] == ["Release 2, 6 February 2026", "Release 1, 5 January 2026"]
    newest = found.entries[0]
    assert newest.link == "https://x.example/engines/changes/#release-2"
    updated = newest.updated_parsed
    assert isinstance(updated, struct_time)
    assert updated[:3] == (2026, 2, 6)
    assert [one.name for one in newest.contributors] == ["merrin"]
    assert "https://x.example/engines/positions/body/cover/" in newest.content[0].value
    atom = "{http://www.w3.org/2005/Atom}"
    root = Tree.fromstring(data)
    for element in (root, *root.iter(f"{atom}entry")):
        for name in ("id", "title", "updated"):
            assert len(element.findall(f"{atom}{name}")) == 1
    assert root.findall(f"{atom}author/{atom}name")


@pytest.mark.slow
def test_a_site_that_shows_no_release_says_its_state(released: Path) -> None:
    worlds.lay(released, LATER, SOURCE)
    assert run("build", released).exit_code == 0
    state = json.loads((released / "site/release.json").read_text())
    assert (state["release"], state["released"]) == ("1", False)
    assert f'"{state["state"]}"' in (released / "site/assets/finder/spanbook.js").read_text()
    assert state["state"].startswith("records ")


BROKEN = {
    "cut off": ("{", "it is no JSON"),
    "deep": ("[" * 100_000, "it is no JSON"),
    "empty": ("{}", "is a required property"),
    "short": ('{"release": "other"}', "is a required property"),
    "large": ("x" * 4_000_001, "more than 4000000 bytes"),
}


def test_a_file_that_is_no_release_is_told(released: Path) -> None:
    for text, told in BROKEN.values():
        (released / "content/releases/0.json").write_text(text)
        with pytest.raises(BrokenRelease, match=told):
            read_releases(released)


@pytest.mark.slow
@pytest.mark.parametrize("text", [text for text, _ in BROKEN.values()], ids=BROKEN)
def test_a_file_that_is_no_release_stops_the_build(released: Path, text: str) -> None:
    (released / "content/releases/0.json").write_text(text)
    found = run("build", released)
    assert "content/releases/0.json" in found.output
    assert not (released / "site").exists()


def test_what_a_release_says_is_held_to_its_law(released: Path) -> None:
    values = json.loads((released / "content/releases/1.json").read_text())
    evil = {"words": "x", "address": "javascript:alert(1)", "why": [], "by": []}
    for other, told in (
        ({"release": "2"}, "give both one name"),
        ({"date": "2026-02-31"}, "read the date 2026-02-31"),
        ({"changes": [evil]}, "changes/0/address"),
        ({"changes": [{**evil, "address": "//x.example/"}]}, "changes/0/address"),
        ({"more": 1}, "unexpected"),
    ):
        (released / "content/releases/1.json").write_text(json.dumps({**values, **other}))
        with pytest.raises(BrokenRelease, match=told):
            read_releases(released)


@pytest.mark.slow
def test_a_strangers_words_stay_words(released: Path) -> None:
    values = json.loads((released / "content/releases/1.json").read_text())
    one = {"words": "<script>alert(1)</script>", "address": None, "why": ["<b>"], "by": ["]]>"]}
    (released / "content/releases/1.json").write_text(json.dumps({**values, "changes": [one]}))
    assert run("build", released).exit_code == 0
    page = (released / "site/changes/index.html").read_text()
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert(1)" in page
    feed = parsed((released / "site/changes.atom").read_bytes())
    assert feed.entries[0].contributors[0].name == "]]>"


def test_a_release_says_how_it_is_cited(released: Path) -> None:
    """By the keys that the Citation File Format 1.2.0 requires (its schema guide, from memory)."""
    worlds.lay(released, LATER, SOURCE, SEEN)
    spanbook.release(released, "2", day=date(2026, 2, 6))
    made = yaml.safe_load((released / "CITATION.cff").read_text())
    assert {"authors", "cff-version", "message", "title"} <= made.keys()
    assert (made["cff-version"], made["type"], made["license"]) == ("1.2.0", "dataset", "CC0-1.0")
    assert (made["version"], made["date-released"]) == ("2", "2026-02-06")
    assert made["url"] == "https://x.example/engines/"
    assert made["authors"] == [{"name": "X"}, {"alias": "merrin"}]


def test_a_citation_written_by_hand_stays(released: Path) -> None:
    (released / "CITATION.cff").write_text("cff-version: 1.2.0\n")
    worlds.lay(released, LATER, SOURCE)
    spanbook.release(released, "2")
    assert (released / "CITATION.cff").read_text() == "cff-version: 1.2.0\n"


def test_a_new_series_is_told_in_a_line(released: Path) -> None:
    machines = released / "content/machines"
    (file,) = machines.glob("*.yml")
    text = file.read_text()
    more = "- {id: xz, stamped: 'XZ {number}', plate: engine, first: 1, last: 50}\n"
    assert "series:\n" in text
    file.write_text(text.replace("series:\n", f"series:\n{more}", 1))
    made = spanbook.release(released, "2")
    told = [one for one in made.changes if "XZ" in one.words]
    assert [(one.address, "new here, with answers at" in one.words) for one in told] == [("series/xz/", True)]
