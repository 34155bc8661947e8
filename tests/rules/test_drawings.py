"""What may lie among the drawings, and what is said of the rest."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.ground.drawings.read import MOST_BYTES
from spanbook.reading.git_tree import besides, content_at
from spanbook.rules.checking import check_folder, check_tree
from tests.support import worlds
from tests.support.drawings import svg
from tests.support.repository import git

SHOWN = (
    "# file: content/assemblies/lid.yml\nkind: assembly\nid: lid\ntitle: Lid\nposition: body/cover\n"
    "serials:\n- {series: xa, first: 1, last: 20, evidence: [{source: book}]}\n"
    "figures:\n- {file: lid.svg, shows: The lid, licence: CC0-1.0}\n"
)


def laid(tmp_path: Path, name: str, data: bytes) -> Path:
    folder = worlds.lay(tmp_path, SHOWN)
    for file, what in (("lid.svg", svg()), (name, data)):
        path = folder / "content/drawings" / file
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(what)
    return folder


def told(folder: Path) -> list[tuple[str, str, int, str]]:
    return [(p.name, p.place.path, p.place.line, p.read) for p in check_folder(folder).problems]


def test_a_sound_drawing_that_is_shown_is_told_nothing(tmp_path: Path) -> None:
    assert told(laid(tmp_path, "lid.svg", svg())) == []


@pytest.mark.parametrize("name", ["Lid.svg", "the_lid.svg", "lid-.svg", "t/a lid.svg"])
def test_a_name_is_of_small_letters_digits_and_hyphens(name: str, tmp_path: Path) -> None:
    named = [one for one in told(laid(tmp_path, name, svg())) if one[0] == "drawing-refused"]
    assert named == [("drawing-refused", f"content/drawings/{name}", 1, f"the name {name}")]


def test_a_drawing_in_capitals_or_elsewhere_is_told_where_it_belongs(tmp_path: Path) -> None:
    folder = laid(tmp_path, "lid.SVG", svg())
    (folder / "content/plate.svg").write_bytes(svg())
    found = check_folder(folder).problems
    assert [(p.name, p.read) for p in found] == [("file-not-taken", "a drawing where none is taken")] * 2
    assert all("drawings/" in p.todo for p in found)


def test_a_guide_and_its_picture_may_still_lie_in_a_folder_called_drawings(tmp_path: Path) -> None:
    folder = worlds.lay(tmp_path, "# file: content/drawings/how.md\n# How\n# picture: content/drawings/a.png")
    assert told(folder) == []


def test_the_line_in_the_file_is_told(tmp_path: Path) -> None:
    ((name, path, line, read),) = told(laid(tmp_path, "lid.svg", svg("\n\n<script/>")))
    assert (name, path, line, read) == (
        "drawing-refused",
        "content/drawings/lid.svg",
        3,
        "script, which would do something",
    )


def test_what_is_not_taken_over_is_told(tmp_path: Path) -> None:
    inside = '<text>Lid</text><path fill="none" stroke="black" d="M10 10H90"/><use/>'
    ((name, _, _, read),) = told(laid(tmp_path, "lid.svg", svg(inside)))
    assert (name, read) == ("drawing-left-behind", "text, use, not taken over")


def test_links_and_files_too_large_are_not_read(tmp_path: Path) -> None:
    folder = laid(tmp_path, "lid.svg", svg() + b" " * MOST_BYTES)
    (folder / "content/drawings/cap.svg").symlink_to("lid.svg")
    refused = [read for name, _, _, read in told(folder) if name == "drawing-refused"]
    assert refused == ["a link, no plain file", f"more than {MOST_BYTES:,} bytes"]


def test_git_gives_the_same_drawings(tmp_path: Path) -> None:
    folder = laid(tmp_path, "cap.svg", svg("<script/>"))
    git(folder, "init", "-q", "-b", "main")
    git(folder, "add", "-A", "-f")
    git(folder, "commit", "-q", "-m", "A proposal")
    found = check_tree(content_at(folder, "main"), "content").problems
    assert [(p.name, p.place) for p in found] == [(p.name, p.place) for p in check_folder(folder).problems]
    assert {p.name for p in found} == {"drawing-refused", "drawing-unused"}


def test_a_drawing_of_a_record_is_no_file_besides_the_records() -> None:
    files = ("content/drawings/a.svg", "content/drawings/a.md", "content/a.svg", "drawings/a.svg")
    assert besides(files) == files[1:]
