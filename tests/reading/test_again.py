"""A folder that is read again and again: always as if for the first time, and only what changed is opened."""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from spanbook.outputs.serving import look
from spanbook.reading import Reading, read_tree
from spanbook.reading.again import Again, states_below
from spanbook.reading.files import Folder
from tests.support.tries import tries

FOLDERS = ("sources", "assemblies", "elsewhere", "sources/below", ".hidden")
TEXTS = (
    "kind: source\nid: {}\ntitle: {}\nclass: correspondence\n",
    "kind: assembly\nid: {}\ntitle: {}\nposition: body/cover\n",
    "kind: source\nid: other\ntitle: [\n",
    "",
)
NAMES = st.sampled_from(("a.yml", "b.yml", "c.yaml", "A.yml", ".d.yml", "note.md"))
PATHS = st.tuples(st.sampled_from(FOLDERS), NAMES).map("/".join)


def read(again: Again, *, walk: bool = False) -> Reading:
    folder = again.folder.path
    return again.read(states_below(str(folder), look([folder])), walk=walk)


def told(found: Reading) -> tuple[object, ...]:
    records = [(one.kind, one.id, one.origin.path, one.origin.data) for one in found.records]
    return records, found.problems, found.unread


class Edits:
    """What somebody does to the files of a folder, each at a time of its own."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.count = 0

    def write(self, path: str, text: str) -> None:
        file = self.folder / path
        if not file.is_dir():
            file.parent.mkdir(parents=True, exist_ok=True)
            file.unlink(missing_ok=True)
            self.count += 1
            file.write_text(text.format(file.stem, self.count))
            os.utime(file, ns=(self.count, self.count))

    def delete(self, path: str, _: str) -> None:
        (self.folder / path).unlink(missing_ok=True)

    def rename(self, path: str, other: str) -> None:
        if (self.folder / path).is_file() and not (self.folder / other).is_dir():
            (self.folder / other).parent.mkdir(parents=True, exist_ok=True)
            (self.folder / path).replace(self.folder / other)

    def link(self, path: str, other: str) -> None:
        if not os.path.lexists(self.folder / path):
            (self.folder / path).parent.mkdir(parents=True, exist_ok=True)
            (self.folder / path).symlink_to(self.folder / other)


EDITS = st.one_of(
    st.tuples(st.just(Edits.write), PATHS, st.sampled_from(TEXTS)),
    st.tuples(st.just(Edits.delete), PATHS, st.just("")),
    st.tuples(st.sampled_from((Edits.rename, Edits.link)), PATHS, PATHS),
)
Edit = tuple[Callable[[Edits, str, str], None], str, str]


@given(st.lists(st.lists(EDITS, max_size=4), max_size=6))
@settings(max_examples=tries(60))
def test_after_any_edits_it_is_what_a_first_reading_gives(rounds: list[list[Edit]]) -> None:
    with tempfile.TemporaryDirectory() as name, pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_CACHE_HOME", f"{name}/cache")
        folder = Folder(Path(name, "content"))
        folder.path.mkdir()
        edits, again = Edits(folder.path), Again(folder, "content")
        for some in rounds:
            for do, path, other in some:
                do(edits, path, other)
            fresh = told(read_tree(folder, "content"))
            # Nobody is told of what stirs in a hidden folder: it is found by walking.
            if not Path(folder.path, ".hidden").exists():
                assert told(read(again)) == fresh
            assert told(read(again, walk=True)) == fresh


def test_only_what_changed_is_opened_and_the_others_stay_what_they_are(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    edits = Edits(tmp_path / "content")
    for name in "abc":
        edits.write(f"sources/{name}.yml", TEXTS[0])
    again = Again(Folder(edits.folder), "content")
    before = read(again)
    opened: list[str] = []
    really = Folder.read

    def noted(folder: Folder, relative: str, most: int) -> bytes:
        opened.append(relative)
        return really(folder, relative, most)

    monkeypatch.setattr(Folder, "read", noted)
    assert read(again).records == before.records
    assert opened == []
    edits.write("sources/b.yml", TEXTS[0])
    after = read(again)
    assert opened == ["sources/b.yml"]
    assert [one is other for one, other in zip(before.records, after.records, strict=True)] == [
        True,
        False,
        True,
    ]
