from __future__ import annotations

import pytest

from spanbook.answers.sizes_asked import Asked, sizes
from spanbook.answers.sizing import Sized, Tool, Wear
from spanbook.ground.standards import Dimension, Sort


def best(asked: Asked, **recorded: int) -> dict[Sort, str]:
    found = sizes(asked, {Sort.THREAD: recorded})
    return {one.sort: one.likely[0].standard.name for one in found}


def only(asked: Asked) -> Sized:
    (found,) = sizes(asked, {})
    return found


def test_a_diameter_and_threads_are_a_thread() -> None:
    assert best(Asked("5/16 in", per_inch=22)) == {Sort.THREAD: "5/16 BSF"}
    assert best(Asked("7.8 mm", pitch=1.25)) == {Sort.THREAD: "M8"}
    assert best(Asked("5/16 in", per_inch=18, flanks=55)) == {Sort.THREAD: "5/16 BSW"}


def test_the_bore_of_a_nut() -> None:
    assert best(Asked("6.65 mm", pitch=1.25, inside=True)) == {Sort.THREAD: "M8"}


def test_what_is_recorded_of_the_maker_decides_between_equals() -> None:
    asked = Asked("5/16 in", per_inch=18)
    assert best(asked, BSW=12, UNC=1) == {Sort.THREAD: "5/16 BSW"}
    assert best(asked, BSW=1, UNC=12) == {Sort.THREAD: "5/16 UNC"}


def test_three_sizes_are_a_bearing_and_two_an_o_ring() -> None:
    assert best(Asked("17x40x12 mm")) == {Sort.BEARING: "6203"}
    assert best(Asked("1.48 x .07 in")) == {Sort.O_RING: "AS568 -029"}


def test_one_size_may_be_many_things_or_what_is_asked_for() -> None:
    assert set(best(Asked("12 mm"))) == {Sort.THREAD, Sort.JAW, Sort.TUBE, Sort.DRILL}
    assert best(Asked("0.710 in", sort=Sort.JAW, tool=Tool.CALIPER, wear=Wear.NEW)) == {Sort.JAW: "3/8 W"}
    assert best(Asked("150 micron", sort=Sort.SIEVE, tool=Tool.FEELER)) == {Sort.SIEVE: "No. 100"}


def test_a_rule_counts_threads_and_a_gauge_knows_them() -> None:
    counted = only(Asked("3/8 in", per_inch=16, tool=Tool.RULE))
    gauged = only(Asked("3/8 in", per_inch=16))
    assert {one.standard.name for one in gauged.likely} == {"3/8 BSW", "3/8 UNC"}
    assert "M10" in {one.standard.name for one in counted.likely}


def test_a_size_written_coarsely_is_to_be_read_again() -> None:
    found = only(Asked("12 mm", sort=Sort.JAW))
    assert found.next
    assert (found.next.what, found.next.tool) == (Dimension.ACROSS, Tool.CALIPER)


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        (Asked("1x2x3x4 mm"), "has 4 sizes"),
        (Asked("17x40 mm", per_inch=18), "threads and flanks are a thread's"),
        (Asked("17x40 mm", sort=Sort.THREAD), "thread wants 1"),
        (Asked("17 mm", sort=Sort.BEARING), "bearing wants 3"),
        (Asked("17 mm", sort=Sort.JAW, pitch=1), "asked as jaw"),
        (Asked("17"), "has no unit"),
    ],
)
def test_what_cannot_be_asked_is_told(asked: Asked, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        sizes(asked, {})
