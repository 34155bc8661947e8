from __future__ import annotations

import pytest

from spanbook.answers.sizes_asked import Asked, sizes
from spanbook.answers.sizing import Difference, Off, Tool, Wear
from spanbook.ground.language import speaking
from spanbook.ground.standards import Dimension, Sort
from spanbook.wording.sizing import chance_words, difference_words, likely_words, next_words, recorded_words


@pytest.mark.parametrize(
    ("chance", "told"),
    [(1.0, "over 99 in 100"), (0.995, "over 99 in 100"), (0.5, "50 in 100"), (0.004, "under 1 in 100")],
)
def test_no_chance_is_told_as_certain_or_as_nothing(chance: float, told: str) -> None:
    assert chance_words(chance) == told


@pytest.mark.parametrize(
    ("off", "told"),
    [
        (Off.WORN, "10 thou (0.25 mm) would have to be worn off at its diameter"),
        (Off.OVER, "its diameter is 10 thou (0.25 mm) more than it allows"),
        (Off.UNDER, "its diameter is 10 thou (0.25 mm) less than it allows"),
        (Off.FITS, "its diameter fits"),
    ],
)
def test_what_would_have_to_be_true(off: Off, told: str) -> None:
    assert difference_words(Difference(Dimension.DIAMETER, off, 0.254)) == told


def test_an_angle_is_told_in_degrees() -> None:
    assert difference_words(Difference(Dimension.ANGLE, Off.OVER, 5)).startswith(
        "the angle of its flanks is 5°"
    )


def test_a_likely_size_names_its_standard_and_what_is_worn() -> None:
    (found,) = sizes(Asked("7.4 mm", per_inch=22, tool=Tool.MICROMETER, wear=Wear.WORN), {})
    told = likely_words(found.likely[0])
    assert told.startswith("5/16 BSF: ")
    assert "would have to be worn off at its diameter" in told
    assert told.endswith("By BS 84 (from memory).")


def test_one_size_alone_needs_no_parting() -> None:
    (found,) = sizes(Asked("17x40x12 mm"), {})
    assert next_words(found) == ""


def test_where_a_sort_has_one_series_there_is_none_to_tell() -> None:
    (found,) = sizes(Asked("17x40x12 mm"), {Sort.BEARING: {"": 3}})
    assert recorded_words(found) == ""
    (found,) = sizes(Asked("5/16 in", per_inch=22), {Sort.THREAD: {"BSF": 3}})
    assert recorded_words(found) == "3 of 3 threads recorded here are BSF."


def test_sizes_are_told_in_another_language() -> None:
    with speaking("de"):
        assert difference_words(Difference(Dimension.DIAMETER, Off.WORN, 0.254)) == (
            "Durchmesser: 10 thou (0,25 mm) müssten abgenutzt sein"
        )
        (found,) = sizes(Asked("5/16 in", per_inch=22), {Sort.THREAD: {"BSF": 3}})
        assert recorded_words(found) == "3 von 3 hier eingetragenen Gewinden sind BSF."
        (found,) = sizes(Asked("5/16 in", per_inch=22), {Sort.THREAD: {"BSF": 1}})
        assert recorded_words(found) == "Hier nur einmal eingetragen (Gewinde): BSF."
