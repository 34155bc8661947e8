from __future__ import annotations

import math
import random
from collections.abc import Sequence

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.answers.sizing import Off, Reading, Sized, Tool, Wear, difference, size
from spanbook.ground.standards import Dimension, Sort, Standard, Zone, standards

THREADS = [one for one in standards() if one.sort is Sort.THREAD]
BEARINGS = [one for one in standards() if one.sort is Sort.BEARING]
M8 = next(one for one in THREADS if one.name == "M8")
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


@pytest.mark.parametrize("tool", [Tool.CALIPER, Tool.MICROMETER])
def test_nothing_is_asked_for_where_nothing_parts_the_first_two(tool: Tool) -> None:
    found = size([read(Dimension.DIAMETER, 6.35, tool, Wear.NEW)], _twins())
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


# The model written out once more, from its words alone: integrals by small steps, no error function.
SCATTERS = {Tool.CALIPER: 0.03, Tool.RULE: 0.25, Tool.MICROMETER: 0.008}


def bell(at: float, middle: float, scatter: float) -> float:
    return math.exp(-(((at - middle) / scatter) ** 2) / 2) / (scatter * math.sqrt(2 * math.pi))


def even(low: float, high: float, at: float, scatter: float, steps: int = 400) -> float:
    """What is even over low..high, read with a scatter: the mean of the bells over it."""
    if high == low:
        return bell(at, low, scatter)
    places = (low + (high - low) * (k + 0.5) / steps for k in range(steps))
    return sum(bell(at, place, scatter) for place in places) / steps


def chance_by_hand(zone: Zone, at: float, scatter: float, taken: float) -> float:
    low, high = zone.low, zone.high
    worn = (low - taken, high) if zone.wear < 0 else (low, high + taken) if zone.wear > 0 else (low, high)
    fitting = (even(low, high, at, scatter) + even(*worn, at, scatter)) / 2
    return 0.98 * fitting + 0.02 / (2 * at + 1)


@pytest.mark.parametrize(
    ("at", "pitch", "wear", "recorded"),
    [
        (7.75, 1.41, Wear.USED, {}),
        (7.5, 1.27, Wear.WORN, {"BSW": 3}),
        (9.4, 1.5, Wear.NEW, {"BSF": 5, "M": 1}),
    ],
)
def test_chances_are_those_of_the_model_by_hand(
    at: float, pitch: float, wear: Wear, recorded: dict[str, int]
) -> None:
    taken = {Wear.NEW: 0.0, Wear.USED: 0.1, Wear.WORN: 0.4}[wear]
    series = {one.series for one in THREADS}
    total = sum(recorded.values()) + len(series)
    by_hand = {}
    for one in THREADS:
        outside, turn = one.zone(Dimension.DIAMETER), one.zone(Dimension.PITCH)
        assert outside
        assert turn
        prior = (recorded.get(one.series, 0) + 1) / total
        diameter = chance_by_hand(outside, at, 0.03, taken)
        counted = 0.98 * bell(pitch, turn.low, 0.035 * pitch) + 0.02 / (2 * pitch + 1)
        by_hand[one.name] = prior * diameter * counted
    readings = [read(Dimension.DIAMETER, at, wear=wear), read(Dimension.PITCH, pitch)]
    found = size(readings, THREADS, recorded)
    assert found
    everything = sum(by_hand.values())
    wanted = {name: weight / everything for name, weight in by_hand.items() if weight / everything >= 0.01}
    assert {one.standard.name: one.probability for one in found.likely} == pytest.approx(wanted, rel=2e-3)


@pytest.mark.parametrize(("at", "wear"), [(6.7, Wear.NEW), (7.0, Wear.USED), (7.2, Wear.WORN)])
def test_chances_of_a_bore_are_those_of_the_model_by_hand(at: float, wear: Wear) -> None:
    taken = {Wear.NEW: 0.0, Wear.USED: 0.1, Wear.WORN: 0.4}[wear]
    by_hand = {one.name: chance_by_hand(_zone(one, Dimension.MINOR), at, 0.03, taken) for one in THREADS}
    found = size([read(Dimension.MINOR, at, wear=wear)], THREADS)
    assert found
    everything = sum(by_hand.values())
    wanted = {name: weight / everything for name, weight in by_hand.items() if weight / everything >= 0.01}
    assert {one.standard.name: one.probability for one in found.likely} == pytest.approx(wanted, rel=2e-3)


def _zone(one: Standard, what: Dimension) -> Zone:
    zone = one.zone(what)
    assert zone
    return zone


def test_a_standard_is_near_until_a_misreading_is_as_likely() -> None:
    """The place above an M8's zone where it stops being near, found by halving, with the chances by hand."""
    zone = _zone(M8, Dimension.DIAMETER)

    def near(at: float) -> bool:
        misread = 0.02 / (2 * at + 1)
        return chance_by_hand(zone, at, 0.03, 0.0) - misread > misread

    low, high = zone.high, zone.high + 1
    for _ in range(40):
        middle = (low + high) / 2
        low, high = (middle, high) if near(middle) else (low, middle)
    assert size([read(Dimension.DIAMETER, low - 2e-5, wear=Wear.NEW)], [M8])
    assert size([read(Dimension.DIAMETER, high + 2e-5, wear=Wear.NEW)], [M8]) is None


def test_a_size_written_to_a_millimetre_is_blurred_by_that() -> None:
    """An even error over a millimetre has a deviation of 1/√12, which joins the tool's."""
    coarse = size([Reading(Dimension.DIAMETER, 7.4, 8.4, Tool.CALIPER)], THREADS)
    blurred = math.sqrt(0.03**2 + 1 / 12)
    assert coarse
    weights = {
        one.name: chance_by_hand(zone, 7.9, blurred, 0.1)
        for one in THREADS
        if (zone := one.zone(Dimension.DIAMETER))
    }
    whole = sum(weights.values())
    for one in coarse.likely:
        assert one.probability == pytest.approx(weights[one.standard.name] / whole, rel=2e-3)


def test_how_well_a_measure_parts_two_is_what_they_do_not_share() -> None:
    """M8 and 5/16 BSF, told apart by a gauge on the pitch: the two bells overlap by what is under both."""
    found = threads(read(Dimension.DIAMETER, 7.8, Tool.RULE))
    first, second = (one.standard for one in found.likely[:2])
    assert found.next
    zones = first.zone(found.next.what), second.zone(found.next.what)
    assert zones[0]
    assert zones[1]
    scatter = 0.008 * zones[0].middle if found.next.what is Dimension.PITCH else SCATTERS[found.next.tool]
    low = min(zones[0].low, zones[1].low) - 6 * scatter
    high = max(zones[0].high, zones[1].high) + 6 * scatter
    steps = 2000
    width = (high - low) / steps
    shared = sum(
        min(even(z.low, z.high, low + (k + 0.5) * width, scatter, 200) for z in zones if z) * width
        for k in range(steps)
    )
    assert found.next.parts == pytest.approx(1 - shared, abs=0.01)


def _two(**apart: float) -> list[Standard]:
    """M8, and another that differs by so many mm in the dimensions named."""

    def moved(what: Dimension, zone: Zone) -> Zone:
        by = apart.get(what.name.lower(), 0.0)
        return Zone(zone.low + by, zone.high + by, zone.wear)

    zones = tuple((what, moved(what, zone)) for what, zone in M8.zones)
    return [M8, Standard(M8.sort, "other", M8.size, zones, M8.source)]


GAUGE = 0.008 * 1.25  # how far off a gauge is on the pitch of an M8, in mm


@pytest.mark.parametrize("apart", [1.5 * GAUGE, 3 * GAUGE, 6 * GAUGE])
def test_a_gauge_parts_two_pitches_by_what_two_bells_do_not_share(apart: float) -> None:
    """Two normal distributions with means d apart share 2 Φ(−d / 2σ), a textbook's result (from memory)."""
    found = size([read(Dimension.DIAMETER, 7.9)], _two(pitch=apart))
    assert found
    assert found.next
    assert (found.next.what, found.next.tool) == (Dimension.PITCH, Tool.THREAD_GAUGE)
    assert found.next.parts == pytest.approx(math.erf(apart / GAUGE / 2 / math.sqrt(2)), abs=1e-3)


def test_what_was_read_with_the_same_tool_is_not_to_be_read_again_and_with_a_coarser_one_is() -> None:
    two = _two(pitch=2 * GAUGE)
    with_gauge = size([read(Dimension.PITCH, 1.25, Tool.THREAD_GAUGE)], two)
    assert with_gauge
    assert (len(with_gauge.likely), with_gauge.next) == (2, None)
    counted = size([read(Dimension.PITCH, 1.25, Tool.RULE)], two)
    assert counted
    assert counted.next
    assert (counted.next.what, counted.next.tool) == (Dimension.PITCH, Tool.THREAD_GAUGE)


@pytest.mark.parametrize(
    ("held", "beyond"),
    [((Dimension.DIAMETER, 7.9), Dimension.MINOR), ((Dimension.MINOR, 6.7), Dimension.DIAMETER)],
)
def test_what_is_out_of_reach_is_not_asked_for(held: tuple[Dimension, float], beyond: Dimension) -> None:
    """A nut's outside diameter cannot be reached, nor a bolt's bore."""
    found = size([read(*held)], _two(**{beyond.name.lower(): 5.0}))
    assert found
    assert (len(found.likely), found.next) == (2, None)


def test_what_was_read_as_finely_is_not_to_be_read_again() -> None:
    fine = threads(
        read(Dimension.DIAMETER, 7.8, Tool.MICROMETER), read(Dimension.PITCH, 1.25, Tool.THREAD_GAUGE)
    )
    assert fine.next is None or fine.next.what is Dimension.ANGLE
    nut = size([read(Dimension.MINOR, 6.7), read(Dimension.PITCH, 1.25, Tool.RULE)], THREADS)
    assert nut
    assert nut.next
    assert nut.next.what is not Dimension.DIAMETER  # of a nut it cannot be reached


def test_a_reading_far_off_by_its_tool_alone_still_fits() -> None:
    m8 = next(one for one in THREADS if one.name == "M8")
    zone = m8.zone(Dimension.DIAMETER)
    assert zone
    assert difference(m8, read(Dimension.DIAMETER, zone.high + 0.45, Tool.RULE)).off is Off.FITS
    over = difference(m8, read(Dimension.DIAMETER, zone.high + 0.55, Tool.RULE))
    assert over.off is Off.OVER
    assert over.by == pytest.approx(0.55)
    assert (
        difference(m8, read(Dimension.PITCH, 1.25 * 1.06)).off is Off.FITS
    )  # counted: 3.5 in 100 either way
    assert difference(m8, read(Dimension.PITCH, 1.25 * 1.09)).off is Off.OVER


def test_the_record_is_given_back_with_the_answer() -> None:
    assert threads(read(Dimension.DIAMETER, 7.8), BSW=2).recorded == {"BSW": 2}
    assert threads(read(Dimension.DIAMETER, 7.8)).recorded == {}
    alone = size([read(Dimension.DIAMETER, 7.9)], [M8])
    assert alone
    assert (alone.sort, alone.recorded, alone.next) == (Sort.THREAD, {}, None)
