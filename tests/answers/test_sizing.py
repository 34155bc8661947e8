from __future__ import annotations

import random
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.sizing import Off, Reading, Sized, Tool, Wear, difference, size
from spanbook.ground.standards import Dimension, Sort, Standard, standards

THREADS = [one for one in standards() if one.sort is Sort.THREAD]
BEARINGS = [one for one in standards() if one.sort is Sort.BEARING]
INCH = 25.4


def read(what: Dimension, at: float, tool: Tool = Tool.CALIPER, wear: Wear = Wear.USED) -> Reading:
    return Reading(what, at, at, tool, wear)


def threads(*readings: Reading, **recorded: int) -> Sized:
    found = size(readings, THREADS, recorded)
    assert found
    return found


def best(found: Sized) -> str:
    return found.likely[0].standard.name


def test_a_bolt_is_told_by_its_diameter_and_threads() -> None:
    found = threads(read(Dimension.DIAMETER, 7.8), read(Dimension.PITCH, INCH / 22, Tool.THREAD_GAUGE))
    assert best(found) == "5/16 BSF"
    assert found.likely[0].probability > 0.95


def test_two_series_with_one_pitch_are_parted_by_the_flanks() -> None:
    found = threads(read(Dimension.DIAMETER, 7.8), read(Dimension.PITCH, INCH / 18, Tool.THREAD_GAUGE))
    assert {one.standard.name for one in found.likely[:2]} == {"5/16 BSW", "5/16 UNC"}
    assert found.next
    assert (found.next.what, found.next.tool) == (Dimension.ANGLE, Tool.THREAD_GAUGE)
    looked = read(Dimension.ANGLE, 55, Tool.THREAD_GAUGE)
    known = threads(
        read(Dimension.DIAMETER, 7.8), read(Dimension.PITCH, INCH / 18, Tool.THREAD_GAUGE), looked
    )
    assert best(known) == "5/16 BSW"
    assert known.likely[0].probability > 0.95


def test_what_a_maker_used_before_counts() -> None:
    readings = (read(Dimension.DIAMETER, 7.8), read(Dimension.PITCH, INCH / 18, Tool.THREAD_GAUGE))
    assert best(threads(*readings, BSW=12, UNC=2)) == "5/16 BSW"
    assert best(threads(*readings, BSW=2, UNC=12)) == "5/16 UNC"


def test_what_would_have_to_be_true() -> None:
    m8 = next(one for one in THREADS if one.name == "M8")
    assert difference(m8, read(Dimension.DIAMETER, 7.9)).off is Off.FITS
    worn = difference(m8, read(Dimension.DIAMETER, 7.5))
    zone = m8.zone(Dimension.DIAMETER)
    assert zone
    assert worn.off is Off.WORN
    assert worn.by == pytest.approx(zone.low - 7.5)
    assert difference(m8, read(Dimension.DIAMETER, 8.3)).off is Off.OVER
    assert difference(m8, read(Dimension.PITCH, 1.0, Tool.THREAD_GAUGE)).off is Off.UNDER


def test_a_bore_wears_the_other_way() -> None:
    nut = next(one for one in THREADS if one.name == "M8")
    zone = nut.zone(Dimension.MINOR)
    assert zone
    assert difference(nut, read(Dimension.MINOR, zone.high + 0.3)).off is Off.WORN
    assert difference(nut, read(Dimension.MINOR, zone.low - 0.3)).off is Off.UNDER


def test_wear_takes_off_and_never_adds() -> None:
    nominal = next(one for one in THREADS if one.name == "M10").zone(Dimension.DIAMETER)
    assert nominal

    def chance(at: float) -> float:
        found = size([read(Dimension.DIAMETER, at, wear=Wear.WORN), read(Dimension.PITCH, 1.5)], THREADS)
        likely = found.likely if found else ()
        return next((one.probability for one in likely if one.standard.name == "M10"), 0.0)

    assert chance(nominal.low - 0.25) > 3 * chance(nominal.high + 0.4)


def test_a_bearing_by_its_three_sizes() -> None:
    taken = zip((Dimension.INSIDE, Dimension.OUTSIDE, Dimension.WIDTH), (17, 40, 12), strict=True)
    found = size([read(what, at) for what, at in taken], BEARINGS)
    assert found
    assert best(found) == "6203"
    assert found.likely[0].probability > 0.99


def test_nothing_measured_and_nothing_that_has_it_is_no_answer() -> None:
    assert size([], THREADS) is None
    assert size([read(Dimension.SECTION, 1.78)], THREADS) is None


def test_what_is_near_nothing_is_no_answer() -> None:
    assert size([read(Dimension.DIAMETER, 300, Tool.MICROMETER, Wear.NEW)], THREADS) is None


def test_nothing_is_asked_for_where_nothing_parts_the_first_two() -> None:
    found = size([read(Dimension.DIAMETER, 6.35, Tool.MICROMETER, Wear.NEW)], _twins())
    assert found
    assert len(found.likely) == 2
    assert found.next is None


def _twins() -> list[Standard]:
    drill = next(one for one in standards() if (one.sort, one.size) == (Sort.DRILL, "1/4"))
    return [drill, Standard(drill.sort, "other", drill.size, drill.zones, drill.source)]


@given(
    st.floats(3, 40),
    st.floats(0.5, 3),
    st.sampled_from(list(Tool)),
    st.sampled_from(list(Wear)),
    st.booleans(),
)
def test_chances_are_of_one_whole_in_falling_order(
    diameter: float, pitch: float, tool: Tool, wear: Wear, both: bool
) -> None:
    readings = [read(Dimension.DIAMETER, diameter, tool, wear)]
    if both:
        readings.append(read(Dimension.PITCH, pitch, tool, wear))
    found = size(readings, THREADS)
    told = [one.probability for one in found.likely] if found else []
    assert told == sorted(told, reverse=True)
    assert sum(told) <= 1.000001
    assert all(chance >= 0.01 for chance in told)
    assert found is None or told


@given(
    st.permutations([read(Dimension.DIAMETER, 7.8), read(Dimension.PITCH, 1.41), read(Dimension.ANGLE, 55)])
)
def test_the_order_of_measuring_does_not_matter(readings: Sequence[Reading]) -> None:
    assert best(threads(*readings)) == "5/16 BSW"


@pytest.mark.slow
@pytest.mark.parametrize(
    ("tool", "gauge", "form", "first", "of_three"),
    [
        (Tool.RULE, Tool.RULE, False, 0.63, 0.98),
        (Tool.CALIPER, Tool.THREAD_GAUGE, False, 0.85, 0.995),
        (Tool.CALIPER, Tool.THREAD_GAUGE, True, 0.97, 0.995),
    ],
)
def test_worn_bolts(tool: Tool, gauge: Tool, form: bool, first: float, of_three: float) -> None:
    """2,500 worn bolts of the common series, measured with the bench's own clumsiness: the marks are those
    of a prototype that was made before this."""
    draw = random.Random(3)
    common = [
        one
        for one in THREADS
        if one.series in ("UNC", "UNF", "BSW", "BSF", "M") and 6 <= one.zones[0][1].high <= 26
    ]
    hits = near = 0
    for _ in range(2500):
        true = draw.choice(common)
        found = size(
            _measured(draw, true, tool, gauge, form),
            THREADS,
            dict.fromkeys(["UNC", "UNF", "BSW", "BSF", "M"], 1),
        )
        told = [one.standard for one in found.likely[:3]] if found else []
        hits += told[:1] == [true]
        near += true in told
    assert hits / 2500 >= first
    assert near / 2500 >= of_three


def _measured(draw: random.Random, true: Standard, tool: Tool, gauge: Tool, form: bool) -> list[Reading]:
    outside, pitch = true.zone(Dimension.DIAMETER), true.zone(Dimension.PITCH)
    assert outside
    assert pitch
    worn = draw.uniform(0, 0.4) if draw.random() < 0.5 else 0.0
    scatter = {Tool.RULE: 0.25, Tool.CALIPER: 0.03}[tool]
    at = draw.gauss(draw.uniform(outside.low, outside.high) - worn, scatter)
    if tool is Tool.RULE:
        at = round(at / (INCH / 64)) * INCH / 64
    turn = draw.gauss(1, 0.03 if gauge is Tool.RULE else 0.008)
    length = INCH / round(INCH / (pitch.low * turn)) if gauge is Tool.RULE else pitch.low * turn
    readings = [read(Dimension.DIAMETER, at, tool, Wear.WORN), read(Dimension.PITCH, length, gauge)]
    if form:
        angle = true.zones[3][1].low
        seen = 115 - angle if draw.random() < 0.05 else angle
        readings.append(read(Dimension.ANGLE, seen, Tool.EYE))
    return readings
