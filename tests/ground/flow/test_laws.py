"""Each way's law: never falling, continuous, the same either way where it lets things pass either way."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from spanbook.ground.flow import laws

BAR = 1e5
LAWS: dict[str, laws.Law] = {
    "straight": laws.Straight(2e-10),
    "pipe": laws.Pipe(bore=2e-3, length=0.6, viscosity=0.003, density=870),
    "wide pipe": laws.Pipe(bore=12e-3, length=0.3, viscosity=0.02, density=870),
    "jet": laws.Jet(bore=1.6e-3, coefficient=0.62, density=870),
    "slots": laws.Slots(count=75, width=0.17, gap=1e-4, depth=3e-3, viscosity=0.02),
    "relief": laws.Relief(opens=2 * BAR, gives=1e-9),
    "cell": laws.Cell(lifts=6.0, gives=2.0),
    "shut": laws.Shut(),
    "given": laws.Given(3e-4),
}
EACH = pytest.mark.parametrize("law", LAWS.values(), ids=LAWS)
DROPS = st.floats(-8 * BAR, 8 * BAR)


@EACH
@given(DROPS, DROPS)
def test_a_law_never_falls(law: laws.Law, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert law.flow(low)[0] <= law.flow(high)[0] + 1e-15


@EACH
@given(DROPS)
def test_a_law_does_not_jump(law: laws.Law, drop: float) -> None:
    """Within a pascal either way it changes by no more than its steepest slope there."""
    here, slope = law.flow(drop)
    before, after = law.flow(drop - 1), law.flow(drop + 1)
    most = max(slope, before[1], after[1]) * 1.01 + 1e-12
    assert after[0] - here <= most
    assert here - before[0] <= most


@EACH
@given(DROPS)
def test_the_slope_is_that_of_the_flow(law: laws.Law, drop: float) -> None:
    flow, slope = law.flow(drop)
    step = 1e-3
    beside = (law.flow(drop + step)[0] - flow) / step, (flow - law.flow(drop - step)[0]) / step
    # At a bend, where a valve opens or a pipe turns turbulent, it is the slope on one of the two sides.
    near = min(abs(slope - one) for one in beside)
    assert near <= 1e-3 * abs(slope) + 1e-13


@pytest.mark.parametrize("name", ["straight", "pipe", "wide pipe", "jet", "slots"])
@given(drop=DROPS)
def test_what_lets_pass_either_way_does_so_alike(name: str, drop: float) -> None:
    law = LAWS[name]
    assert law.flow(-drop)[0] == pytest.approx(-law.flow(drop)[0], abs=1e-18)


def test_a_relief_valve_is_shut_until_it_opens_and_backwards() -> None:
    valve = laws.Relief(opens=2 * BAR, gives=1e-9)
    assert valve.flow(2 * BAR) == (0.0, 0.0)
    assert valve.flow(-5 * BAR) == (0.0, 0.0)
    assert valve.flow(3 * BAR)[0] == pytest.approx(1e-4)


def test_between_laminar_and_turbulent_more_drop_gives_no_more() -> None:
    """At a Reynolds number of 2040 the flow waits until the turbulent law has caught up."""
    pipe = laws.Pipe(bore=2e-3, length=0.6, viscosity=0.003, density=870)
    waiting = math.pi * 2e-3 * 0.003 / (4 * 870) * 2040
    drop = 128 * 0.003 * 0.6 * waiting / (math.pi * 2e-3**4)
    assert list(pipe.flow(drop * 1.01)) == pytest.approx([waiting, 0.0])


def test_a_line_of_its_own_bore_speeds_a_jet_up() -> None:
    free = laws.Jet(bore=4e-3, coefficient=0.62, density=870).flow(BAR)[0]
    held = laws.Jet(bore=4e-3, coefficient=0.62, density=870, line=8e-3).flow(BAR)[0]
    assert held / free == pytest.approx(1 / math.sqrt(1 - 0.5**4))


def test_slots_pass_what_poiseuille_gives_them_by_hand() -> None:
    """75 × 0.17 m × (0.1 mm)³ × 10,000 Pa / (12 × 0.02 Pa s × 3 mm) = 177 cm³/s."""
    slots = laws.Slots(count=75, width=0.17, gap=1e-4, depth=3e-3, viscosity=0.02)
    assert slots.flow(1e4)[0] == pytest.approx(1.7708e-4, rel=1e-4)


def test_a_shut_valve_says_how_far_it_is_from_opening() -> None:
    valve = laws.Relief(opens=2 * BAR, gives=1e-9)
    assert laws.pull(valve, BAR) == pytest.approx(-1e-4)
    assert laws.pull(valve, 3 * BAR) == pytest.approx(1e-4) == valve.flow(3 * BAR)[0]
    assert laws.pull(laws.Straight(2e-10), BAR) == pytest.approx(2e-5)
