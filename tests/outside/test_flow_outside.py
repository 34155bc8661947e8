"""Flows held against worked values and published libraries: `fluids` and `scipy` (BSD, MIT), `chemicals`
(MIT).
"""

from __future__ import annotations

import csv
import json
import math
from pathlib import Path
from typing import Any

import pytest

from spanbook.ground.flow import laws, oils
from spanbook.ground.flow.network import Network, Way, rest

CHECKS: dict[str, Any] = json.loads((Path(__file__).parent / "data/08_flow.json").read_text(encoding="utf-8"))
LITRE_MINUTE, BAR = 1e-3 / 60, 1e5
JET = laws.Jet(bore=1.6e-3, coefficient=0.62, density=870, line=8e-3)


def test_a_jet_passes_what_iso_5167_gives_it() -> None:
    """Worked by PyPI fluids 1.3.1: 1.6 mm in a line of 8 mm, 3 bar, a coefficient of 0.62."""
    worked = CHECKS["W1"]
    assert JET.flow(3 * BAR)[0] / LITRE_MINUTE == pytest.approx(worked["Q_Lmin"], rel=0.01)
    free = laws.Jet(bore=1.6e-3, coefficient=0.62, density=870)
    expected = worked["without_velocity_of_approach_Lmin"]
    assert free.flow(3 * BAR)[0] / LITRE_MINUTE == pytest.approx(expected, rel=0.01)
    assert free.flow(12 * BAR)[0] == pytest.approx(2 * free.flow(3 * BAR)[0])


@pytest.mark.parametrize("case", CHECKS["W2"]["cases"], ids=lambda case: f"{case['mu']} Pa s")
def test_a_pipe_passes_what_poiseuille_and_prandtl_give_it(case: dict[str, Any]) -> None:
    pipe = laws.Pipe(bore=2e-3, length=0.6, viscosity=case["mu"], density=870)
    expected = case.get("fluids_Lmin", case.get("Q_Lmin"))
    assert pipe.flow(3 * BAR)[0] / LITRE_MINUTE == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("reynolds", [4e3, 1e4, 1e5, 1e6])
def test_a_turbulent_pipe_agrees_with_the_friction_factor_of_a_library(reynolds: float) -> None:
    """PyPI fluids: the smooth pipe of Colebrook's equation, which is Prandtl's law."""
    import fluids  # with numpy and scipy: half a second of every run that only looks for its tests

    bore, length, viscosity, density = 0.01, 1.0, 0.02, 880.0
    factor = fluids.friction.friction_factor(Re=reynolds, eD=0)
    speed = reynolds * viscosity / (density * bore)
    drop = factor * length / bore * density * speed**2 / 2
    flow = laws.Pipe(bore, length, viscosity, density).flow(drop)[0]
    assert flow / (math.pi * bore**2 / 4) == pytest.approx(speed, rel=0.01)


@pytest.mark.parametrize(
    "case", CHECKS["W3"]["cases"], ids=lambda case: f"{case['pump_Lmin']} and {case['G']}"
)
def test_a_pump_bearings_a_jet_and_a_valve_share_as_worked(case: dict[str, Any]) -> None:
    ways = [
        Way("pump", "sump", "gallery", laws.Given(case["pump_Lmin"] * LITRE_MINUTE)),
        Way("bearings", "gallery", "sump", laws.Straight(case["G"] * LITRE_MINUTE / BAR)),
        Way("relief", "gallery", "sump", laws.Relief(3 * BAR, 10 * LITRE_MINUTE / BAR)),
    ]
    if case["bypass"]:
        ways.append(Way("bypass", "gallery", "sump", JET))
    found = rest(Network(tuple(ways), frozenset({"sump"})))
    assert found.pressures["gallery"] / BAR == pytest.approx(case["p_bar"], rel=1e-4)
    for name in ("bearings", "bypass", "relief"):
        flow = found.flows.get(name, 0.0) / LITRE_MINUTE
        assert flow == pytest.approx(case[name], rel=1e-4, abs=1e-4)


@pytest.mark.slow
def test_a_network_agrees_with_a_root_finder() -> None:
    """PyPI scipy's `root` on the same laws: a bridge of jets and pipes, which is no tree."""
    jet, pipe = laws.Jet(2e-3, 0.7, 880), laws.Pipe(4e-3, 0.5, 0.05, 880)
    ways = (
        Way("pump", "sump", "a", laws.Given(8 * LITRE_MINUTE)),
        Way("ab", "a", "b", jet),
        Way("ac", "a", "c", pipe),
        Way("bc", "b", "c", laws.Straight(3e-11)),
        Way("bs", "b", "sump", pipe),
        Way("cs", "c", "sump", laws.Jet(3e-3, 0.6, 880)),
    )
    at = {"a": 0, "b": 1, "c": 2}

    def over(bars: list[float]) -> list[float]:
        left = [0.0, 0.0, 0.0]
        for way in ways:
            ends = [bars[at[place]] * BAR if place in at else 0.0 for place in (way.start, way.end)]
            flow = way.law.flow(ends[0] - ends[1])[0] / LITRE_MINUTE
            for place, sign in ((way.start, -1), (way.end, 1)):
                if place in at:
                    left[at[place]] += sign * flow
        return left

    from scipy import optimize  # type: ignore[import-untyped]

    expected = optimize.root(over, [2.0, 1.0, 1.0], tol=1e-12).x
    found = rest(Network(ways, frozenset({"sump"}))).pressures
    assert [found[place] / BAR for place in at] == pytest.approx(list(expected), rel=1e-4)


def test_an_oil_s_index_agrees_with_the_table_of_astm_d2270() -> None:
    """Every eighth row of ASTM D2270's table of L and H, values as in PyPI chemicals 1.5.2 (MIT)."""
    with (Path(__file__).parent / "data/08b_viscosity_index.csv").open(encoding="utf-8", newline="") as file:
        rows = [{name: float(value) for name, value in row.items()} for row in csv.DictReader(file)]
    assert len(rows) > 30
    for row in rows:
        assert oils.at_forty(row["at_100_mm2_s"], 0) == pytest.approx(row["L_at_40"], rel=0.002)
        assert oils.at_forty(row["at_100_mm2_s"], 100) == pytest.approx(row["H_at_40"], rel=0.002)


def test_an_oil_is_as_thick_as_the_worked_example_of_astm_d2270() -> None:
    """ASTM D2270's example (from memory): 73.30 mm²/s at 40 °C and 8.86 at 100 °C have an index of 92."""
    assert oils.at_forty(8.86, 92.4) == pytest.approx(73.30, rel=0.002)
    assert oils.kinematic(8.86, 92.4, 40) == pytest.approx(73.30, rel=0.002)
    assert oils.kinematic(8.86, 92.4, 100) == pytest.approx(8.86)


def test_an_oil_thins_as_it_warms_and_a_higher_index_thins_less() -> None:
    cold, warm = oils.kinematic(11, 95, 5), oils.kinematic(11, 95, 70)
    assert cold > 30 * warm
    assert oils.kinematic(11, 0, 5) > 2 * cold
    thin, thick = (oils.kinematic(end, 95, 70) for end in oils.GRADES["sae-30"])
    assert thin < warm < thick


def test_an_oil_thicker_than_the_index_is_defined_for_is_refused() -> None:
    with pytest.raises(ValueError, match="thicker"):
        oils.at_forty(80, 50)
