"""What is kept of drawings from one run to the next: nothing but what was made of the very bytes."""

from __future__ import annotations

from pathlib import Path

import pytest

from spanbook.ground.drawings.raster import raster
from spanbook.ground.drawings.read import Refused, read
from spanbook.reading import drawing_cache
from tests.support.drawings import LINE, svg

DATA = svg(f"{LINE}<text>Lid</text>")


@pytest.fixture(autouse=True)
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(drawing_cache, "folder", lambda: tmp_path / "drawings")
    return tmp_path / "drawings"


def files(kept: Path) -> list[Path]:
    return sorted(kept.iterdir()) if kept.is_dir() else []


def test_what_was_made_is_taken_and_is_what_would_be_made(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    first = drawing_cache.left_behind(DATA), drawing_cache.small(DATA, 160)
    assert first == (("text",), raster(read(DATA), 160))
    assert len(files(kept)) == 2
    monkeypatch.setattr(drawing_cache, "read", None)  # nothing is read again
    assert (drawing_cache.left_behind(DATA), drawing_cache.small(DATA, 160)) == first


def test_another_file_or_another_size_is_something_else(kept: Path) -> None:
    assert drawing_cache.small(DATA, 160) != drawing_cache.small(DATA, 80)
    assert drawing_cache.left_behind(svg()) == ()
    assert len(files(kept)) == 3


@pytest.mark.parametrize("damage", [b"", b"x", b"x" * 40])
def test_what_is_damaged_or_anothers_is_made_again(kept: Path, damage: bytes) -> None:
    first = drawing_cache.small(DATA, 160)
    (file,) = files(kept)
    file.write_bytes(damage)
    assert drawing_cache.small(DATA, 160) == first
    assert file.read_bytes().endswith(first)


def test_what_is_kept_for_one_name_is_not_taken_for_another(kept: Path) -> None:
    wanted = drawing_cache.small(DATA, 160)
    (ours,) = files(kept)
    drawing_cache.small(svg(), 160)
    (other,) = (file for file in files(kept) if file != ours)
    ours.write_bytes(other.read_bytes())
    assert drawing_cache.small(DATA, 160) == wanted


def test_what_is_refused_is_refused_every_time_and_nothing_is_kept(kept: Path) -> None:
    for _ in range(2):
        with pytest.raises(Refused):
            drawing_cache.left_behind(svg("<script/>"))
    assert files(kept) == []


def test_where_nothing_can_be_kept_it_is_made_every_time(kept: Path) -> None:
    kept.write_text("no folder")
    assert drawing_cache.left_behind(DATA) == ("text",)
