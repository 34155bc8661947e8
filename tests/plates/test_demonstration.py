"""The plates that the demonstration shows: small, nothing but lines, and numbered by the parts lists."""

from __future__ import annotations

from pathlib import Path

import pytest
import yaml

from spanbook.ground.drawings.drawing import Pen
from spanbook.ground.drawings.read import read
from tests.support.rows import each_row
from tests.support.tries import some

CONTENT = Path(__file__).parents[2] / "content"
MOST_BYTES = 60_000


def _plates() -> list[Path]:
    return sorted((CONTENT / "drawings").glob("*.svg"))


def test_there_are_plates_of_two_dozen_assemblies() -> None:
    assert len(_plates()) >= 24


@pytest.mark.parametrize("plate", some(_plates()), ids=lambda plate: plate.stem)
def test_a_plate_is_small_and_all_of_it_is_taken(plate: Path) -> None:
    data = plate.read_bytes()
    assert len(data) <= MOST_BYTES
    drawing = read(data)
    assert not drawing.left
    assert {stroke.pen for stroke in drawing.strokes} == {Pen.LINE}


def _of_assemblies() -> list[Path]:
    """A machine is drawn whole: it has no list."""
    return [plate for plate in _plates() if not (CONTENT / "machines" / f"{plate.stem}.yml").exists()]


@each_row("plate", some(_of_assemblies()))
def test_a_plate_points_out_each_listed_number_once(plate: Path) -> None:
    (file,) = (CONTENT / "assemblies").rglob(f"{plate.stem}.yml")
    record = yaml.load(file.read_text(encoding="utf-8"), yaml.BaseLoader)
    (points,) = (figure["points"] for figure in record["figures"] if figure["file"] == plate.name)
    assert [(point["number"], point.get("by")) for point in points if "number" in point] == [
        (line["number"], line.get("by")) for line in record["parts"]
    ]
    places = {(point["x"], point["y"]) for point in points}
    assert len(places) == len(points)
