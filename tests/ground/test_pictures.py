"""The picture beside a shared link: what stands on it stays on it, and nothing is written wrong."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image

from spanbook.ground.pictures import SIZE, Letters, Plate, Strip, Tone, Unwritable, png
from spanbook.reading import picture_cache

OWN = Letters()
PLATE = Plate(
    "Example engines",
    "Assembly",
    "Wire gauze strainer",
    "Oil filter: from XA 1 to XA 400.",
    (Strip("XA 1", "XA 900", ((0, 40, Tone.SURE), (40, 5, Tone.MAYBE))),),
)
PLAIN = st.text(st.characters(min_codepoint=32, max_codepoint=126), max_size=400)


def shown(plate: Plate) -> Image.Image:
    return Image.open(io.BytesIO(png(plate, OWN)))


def tones(picture: Image.Image, y: int) -> set[int]:
    return {int(str(picture.getpixel((x, y)))) for x in range(SIZE[0])}


def test_it_is_a_small_png_of_the_size_that_its_page_tells() -> None:
    data = png(PLATE, OWN)
    picture = Image.open(io.BytesIO(data))
    assert (picture.format, picture.size, picture.mode) == ("PNG", SIZE, "P")
    assert len(data) < 8000
    assert data == png(PLATE, OWN)


def test_a_strip_is_drawn_to_scale() -> None:
    picture = shown(PLATE)
    middle = SIZE[1] - 12 - 58 + 13
    at = {
        share: int(str(picture.getpixel((28 + round(744 * share / 100), middle))))
        for share in (5, 39, 42, 60, 99)
    }
    assert at == {5: Tone.SURE, 39: Tone.SURE, 42: Tone.MAYBE, 60: Tone.GROUND, 99: Tone.GROUND}
    assert Tone.SURE not in tones(shown(replace(PLATE, strips=())), middle)


@given(PLAIN, PLAIN, PLAIN)
def test_however_long_nothing_runs_over_the_edge(site: str, title: str, said: str) -> None:
    picture = shown(replace(PLATE, site=site, title=title, said=said))
    edge = {int(str(picture.getpixel((SIZE[0] - 10, y)))) for y in range(70, SIZE[1])}
    assert edge == {Tone.GROUND}


@pytest.mark.parametrize("title", ["Ölfilter", "Масляный фильтр", "Strainer \u0000", "フィルター"])
def test_a_name_that_cannot_be_written_is_not_written_wrong(title: str) -> None:
    with pytest.raises(Unwritable):
        png(replace(PLATE, title=title), OWN)


def test_a_line_that_cannot_be_written_is_left_out() -> None:
    assert png(replace(PLATE, said="Ölfilter"), OWN) == png(replace(PLATE, said=""), OWN)


def test_what_was_drawn_is_drawn_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    first = picture_cache.picture(PLATE, OWN)
    monkeypatch.setattr(picture_cache, "png", lambda plate, letters: b"another")
    assert picture_cache.picture(PLATE, OWN) == first == png(PLATE, OWN)
    assert picture_cache.picture(replace(PLATE, title="Another"), OWN) == b"another"
    (kept,) = (file for file in picture_cache.folder().iterdir() if first in file.read_bytes())
    kept.write_bytes(kept.read_bytes()[:-1] + b"x")
    assert picture_cache.picture(PLATE, OWN) == b"another", "what does not hold to its digest is made again"
