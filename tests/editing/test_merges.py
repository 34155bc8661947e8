"""Two records of one thing are put together: what only one said is kept, and every address leads on."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

import spanbook
from spanbook.reading.kinds import BY_FOLDER
from tests.editing.test_names import only_names_changed
from tests.support import worlds
from tests.support.command import LID, PROJECT, run

TWIN = """\
# file: content/assemblies/cap.yml
# told apart by nobody
kind: assembly
id: cap
formerly: [hat]
title: Cap
position: body/cover
number: C-1   # on the rim
serials:
# from the book
- {series: xa, first: 1, last: 20, anchor: span-cap, evidence: [{source: book, at: p. 3}]}   # the same
- {series: xb, first: 100, last: 120, evidence: [{source: book}]}
tell: [A rim]
parts:
- {number: K-1, name: Knob}
- {number: K-2, name: Pin}   # brass
notes: |
  Seen by many.
"""
FIRST = LID.replace("last: 20}", "last: 20, evidence: [{source: book}]}") + (
    "tell: [A lid]\nparts:\n- {number: K-1, name: Knob}\nnotes: Seen by few.\n"
)
SEEN = (
    "# file: content/teardowns/x-7-merrin.yml\nkind: teardown\nid: x-7-merrin\ndate: 2024\nseen-by: merrin\n"
    "serial: XA 7\ncondition: untouched\nfound:\n- {position: body/cover, one-of: [cap, lid]}\n"
    "notes: It is [the cap](/assemblies/cap/#span-cap).\n"
)


def test_what_only_one_says_comes_to_the_other(tmp_path: Path) -> None:
    worlds.lay(tmp_path, FIRST, TWIN, SEEN)
    done = run("merge", "assemblies/cap", "assemblies/lid", "--folder", tmp_path, "--yes")
    assert done.exit_code == 0, done.output
    assert not (tmp_path / "content/assemblies/cap.yml").exists()
    assert (
        (tmp_path / "content/assemblies/lid.yml").read_text()
        == """\
kind: assembly
id: lid
formerly: [cap, hat]
title: Lid
position: body/cover
serials:
- {series: xa, formerly: [span-cap], first: 1, last: 20, evidence: [{source: book}, {source: book, at: p. 3}]}
- {series: xb, first: 100, last: 120, evidence: [{source: book}]}
tell: [A lid, A rim]
parts:
- {number: K-1, name: Knob}
- {number: K-2, name: Pin}   # brass
notes: |
  Seen by few.

  Seen by many.
number: C-1   # on the rim
# told apart by nobody
# from the book
# the same
"""
    )
    seen = (tmp_path / "content/teardowns/x-7-merrin.yml").read_text()
    assert "{position: body/cover, assembly: lid}" in seen
    assert "(/assemblies/lid/#span-cap)" in seen


@pytest.mark.slow
@pytest.mark.parametrize(
    ("file", "id_", "named"),
    [
        ("sources/parts-book-1934.yml", "parts-book-1934", "sources"),
        ("assemblies/lubrication/edge-strainer.yml", "edge-strainer", "assemblies"),
        ("supersessions/jet-late.yml", "jet-late", "supersessions"),
    ],
)
def test_a_record_told_twice_is_told_once_and_nothing_else_changes(
    file: str, id_: str, named: str, tmp_path: Path
) -> None:
    shutil.copytree(PROJECT / "content", tmp_path / "content")
    told_once(tmp_path, file, id_, named)


@pytest.mark.parametrize(
    ("file", "id_", "named"),
    [("sources/book.yml", "book", "sources"), ("assemblies/lid.yml", "lid", "assemblies")],
)
def test_a_record_of_a_small_community_told_twice_is_told_once(
    file: str, id_: str, named: str, tmp_path: Path
) -> None:
    told_once(worlds.lay(tmp_path, FIRST), file, id_, named)


def told_once(folder: Path, file: str, id_: str, named: str) -> None:
    """A copy under another id, put together with the first again, is the first with another name."""
    text = (folder / "content" / file).read_text()
    copy = folder / "content" / Path(file).with_name("the-copy.yml")
    copy.write_text(text.replace(f"id: {id_}\n", "id: the-copy\n", 1))
    found = spanbook.merge(folder, f"{named}/the-copy", f"{named}/{id_}")
    assert {change.after for change in found.files if change.after} == {file}
    assert found.now.former.ids[BY_FOLDER[named].name, "the-copy"] == id_


@pytest.mark.parametrize(
    ("what", "into", "told"),
    [
        ("assemblies/cap", "assemblies/cap", "name two things of one sort"),
        ("assemblies/cap", "sources/book", "name two things of one sort"),
        ("positions/body", "positions/pump", "there are positions inside; move those first"),
        ("series/xb", "series/xa", "these would be wrong afterwards"),
    ],
)
def test_what_is_not_one_thing_is_told(what: str, into: str, told: str, tmp_path: Path) -> None:
    worlds.lay(tmp_path, FIRST, TWIN, SEEN)
    with pytest.raises(spanbook.CannotChange, match=told):
        spanbook.merge(tmp_path, what, into)


def test_two_positions_that_are_one(tmp_path: Path) -> None:
    seen = SEEN.replace("one-of: [cap, lid]", "assembly: lid")
    worlds.lay(tmp_path, FIRST, TWIN.replace("body/cover", "pump"), seen)
    found = spanbook.merge(tmp_path, "positions/pump", "positions/body/drain")
    assert found.now.assemblies["cap"].position == "body/drain"
    assert "pump" not in found.now.positions
    assert found.now.former.ids["position", "pump"] == "body/drain"
    only_names_changed(found, ["caution-missing"])
